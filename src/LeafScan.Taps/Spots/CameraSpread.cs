using LeafScan.Taps.Paper;

namespace LeafScan.Taps.Spots;

/// <summary>
/// How far the camera spread a point: read off the sharpest dark things of a photo. The second moments of a speck say too
/// little, since a faint one is cut off at the threshold and a thread falls into pieces; but how fast shade falls from the
/// darkest pixel outwards is the camera's doing, even at the rim of a large thing.
/// </summary>
internal static class CameraSpread
{
    // One in five things has about as sharp a flank as the camera allows; a few odd ones (pieces of a faint thread) must not say it.
    private const int OneIn = 5;

    // Where the flank begins and ends, as shares of the darkest shade.
    private const double High = 0.75;
    private const double Half = 0.5;
    private const double Low = 0.25;

    // The flank's width in standard deviations of the spread: of a point (a Gaussian) and of a straight edge (its integral).
    private const double PointFlank = 0.9065;
    private const double EdgeFlank = 1.349;

    // The flank's width over the way to half shade, for a point; of a wide thing it goes to nothing.
    private const double PointRatio = 0.7699;

    // A flank farther out than this belongs to something too wide to say anything.
    private const int Farthest = 40;

    private static readonly (int X, int Y)[] Ways = [(1, 0), (0, 1), (1, 1), (1, -1)];

    /// <summary>
    /// Variance of the spread in pixels squared, with <see cref="ShadeMap.Smoothing"/> in it, along the direction in which it
    /// is least: a shaken hand smears one direction only. 0 when nothing dark is there to say it.
    /// </summary>
    /// <param name="map">Shade of the photo.</param>
    /// <param name="spots">All its dark things, print included.</param>
    public static double Of(ShadeMap map, IReadOnlyList<Spot> spots)
    {
        double[] spreads = [.. spots.Select(spot => At(map, spot)).OfType<double>().Order()];
        return spreads.Length == 0 ? 0 : spreads[spreads.Length / OneIn] * spreads[spreads.Length / OneIn];
    }

    private static double? At(ShadeMap map, Spot spot)
    {
        double? least = null;
        foreach ((int x, int y) in Ways)
        {
            // The darkest pixel lies up to half a pixel beside the middle: the mean of both flanks does not care.
            if (Flank(map, spot, x, y) is { } one && Flank(map, spot, -x, -y) is { } other)
            {
                least = Math.Min(least ?? double.MaxValue, Math.Sqrt((x * x) + (y * y)) * (one + other) / 2);
            }
        }

        return least;
    }

    // Standard deviation in steps along one way; null where the sheet ends or another thing comes first.
    private static double? Flank(ShadeMap map, Spot spot, int stepX, int stepY)
    {
        int x = spot.PeakX;
        int y = spot.PeakY;
        double peak = map.Shade.AsRow<short>(y)[x];
        double before = peak;
        (double? high, double? half) = (null, null);
        for (int i = 1; i <= Farthest; i++)
        {
            x += stepX;
            y += stepY;
            // Beside the sheet and along hard light the paper's own shade is unknown.
            if (x < 0 || y < 0 || x >= map.Shade.Cols || y >= map.Shade.Rows || map.Judged.AsRow<byte>(y)[x] == 0)
            {
                return null;
            }

            double here = map.Shade.AsRow<short>(y)[x];
            high ??= Crossed(High);
            half ??= Crossed(Half);
            if (Crossed(Low) is { } low)
            {
                double width = low - high!.Value;
                double ratio = Math.Min(1, width / (PointRatio * half!.Value));
                return width / (EdgeFlank - ((EdgeFlank - PointFlank) * ratio));
            }

            if (high is not null && here > before + (0.1 * peak))
            {
                return null;
            }

            before = here;

            double? Crossed(double share) => here < share * peak ? i - 1 + ((before - (share * peak)) / (before - here)) : null;
        }

        return null;
    }
}
