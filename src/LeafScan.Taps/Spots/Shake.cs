using OpenCvSharp;

namespace LeafScan.Taps.Spots;

/// <summary>
/// A hand that moved while the shutter was open smears every speck by the same way in the same direction. Threads and
/// bits lie in all directions, so what most specks share of their stretch is the hand's.
/// </summary>
/// <param name="LengthPx">Length of the smear, pixels.</param>
/// <param name="Stretch">What it adds to every speck, as in <see cref="Spot.Stretch"/>.</param>
internal sealed record Shake(double LengthPx, Point2d Stretch)
{
    /// <summary>Shorter smears are no more than slight blur, or a sheet seen from the side.</summary>
    public const double LeastPx = 3.5;

    private const int Fewest = 6;

    // The spread of a median is 1.25 times that of a mean, and 1.48 deviations from it make a standard deviation (normal distribution).
    private const double MedianSpread = 1.25 * 1.48;
    private const double Sure = 4;

    // A crease is a row of specks that all lie along it; a shaken hand takes nearly all specks of the photo along.
    private const double NearlyAll = 0.7;

    /// <summary>The shake of a photo; null when its specks show none.</summary>
    /// <param name="spots">All its specks.</param>
    public static Shake? Of(IReadOnlyList<Spot> spots)
    {
        if (spots.Count < Fewest)
        {
            return null;
        }

        double right = Median(spots.Select(spot => spot.Stretch.X));
        double slanted = Median(spots.Select(spot => spot.Stretch.Y));
        double most = Length(new Point2d(right, slanted));

        // A bar of even shade has a variance of a twelfth of its length squared.
        double length = Math.Sqrt(12 * most);
        double off = Median(spots.Select(spot => Length(spot.Stretch - new Point2d(right, slanted))));
        int along = spots.Count(spot => (spot.Stretch.X * right) + (spot.Stretch.Y * slanted) > 0.5 * most * most);
        return length >= LeastPx && along > NearlyAll * spots.Count && most > Sure * MedianSpread * off / Math.Sqrt(spots.Count) ? new Shake(length, new Point2d(right, slanted)) : null;
    }

    private static double Length(Point2d stretch) => Math.Sqrt((stretch.X * stretch.X) + (stretch.Y * stretch.Y));

    private static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted[sorted.Length / 2];
    }
}
