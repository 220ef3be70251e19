using LeafScan.Frame;
using LeafScan.Taps.Spots;
using OpenCvSharp;

namespace LeafScan.Taps.Lining;

/// <summary>Two photos of one sheet, lined up.</summary>
/// <param name="Map">From pixels of the first photo to pixels of the second, for what did not move.</param>
/// <param name="ErrorPx">Typical distance (root mean square) of still spots from where they should be, pixels of the second photo.</param>
/// <param name="Matched">How many spots it rests on.</param>
internal sealed record Alignment(PlaneMap Map, double ErrorPx, int Matched)
{
    private const int Many = 60;

    // The first guess knows no view from the side, so on a sparse sheet pairs are looked for a little farther.
    private const double SparseReach = 1.7;

    /// <summary>Lines up two photos by what lies on the sheet.</summary>
    /// <param name="first">Spots of the first photo, heaviest first.</param>
    /// <param name="second">Spots of the second photo.</param>
    /// <param name="diagonalPx">Diagonal of the first photo.</param>
    /// <param name="sizeRatio">Long side of the second photo over that of the first: what was saved smaller shows everything smaller.</param>
    /// <param name="start">A map known from the sheet's marks; null to guess one.</param>
    /// <returns>Null when the photos cannot be lined up.</returns>
    public static Alignment? Of(IReadOnlyList<Spot> first, IReadOnlyList<Spot> second, double diagonalPx, double sizeRatio, PlaneMap? start)
    {
        double reach = (start is null ? 0.012 : 0.003) * diagonalPx;
        PlaneMap? map = start ?? Constellation.Guess(first, second, reach * Math.Max(1, sizeRatio), 0.2 * diagonalPx, sizeRatio);
        if (map is null)
        {
            return null;
        }

        List<(int A, int B)> pairs = SpotPairs.Mutual(first, second, map, SparseReach * reach);
        if (pairs.Count < Many && start is null)
        {
            return Sparse(first, second, pairs);
        }

        for (; reach > 1.5; reach = Math.Max(1.5, reach * 0.6) - 0.01)
        {
            pairs = SpotPairs.Mutual(first, second, map, reach);
            if (Fit(first, second, pairs, reach, map) is not { } better)
            {
                break;
            }

            map = better;
        }

        // Twice more with the nearest only: what moved must not pull.
        for (int i = 0; i < 2; i++)
        {
            pairs = SpotPairs.Mutual(first, second, map, Math.Clamp(3 * Error(first, second, pairs, map), 0.8, 2.5));
            map = Fit(first, second, pairs, 0, map) ?? map;
        }

        pairs = SpotPairs.Mutual(first, second, map, 2.5);
        if (pairs.Count < 3)
        {
            return start is null ? null : new Alignment(start, double.NaN, 0);
        }

        return new Alignment(map, Error(first, second, pairs, map), pairs.Count);
    }

    private static Alignment? Sparse(IReadOnlyList<Spot> first, IReadOnlyList<Spot> second, List<(int A, int B)> pairs)
    {
        if (Consensus.Of(first, second, pairs) is not { } map)
        {
            return null;
        }

        // With the wide pairs' nearest still in hand, and once more with those that the better map brings near.
        pairs = SpotPairs.Mutual(first, second, map, 2);
        map = Consensus.Of(first, second, pairs) ?? map;
        pairs = SpotPairs.Mutual(first, second, map, 1.5);

        // A few specks are fitted better than the sheet between them is.
        double own = pairs.Count > 5 ? Math.Sqrt(pairs.Count / (pairs.Count - 4.0)) : 2;
        return pairs.Count < 4 ? null : new Alignment(map, Error(first, second, pairs, map) * own, pairs.Count);
    }

    // For errors that spread alike in both directions the root mean square is 1.2 times the median distance (Rayleigh).
    private static double Error(IReadOnlyList<Spot> first, IReadOnlyList<Spot> second, List<(int A, int B)> pairs, PlaneMap map)
    {
        double[] distances = [.. pairs.Where(p => !first[p.A].Coarse).Select(p => Distance(first[p.A], second[p.B], map)).Order()];
        if (distances.Length == 0)
        {
            distances = [.. pairs.Select(p => Distance(first[p.A], second[p.B], map)).Order().DefaultIfEmpty(2)];
        }

        return 1.2 * distances[distances.Length / 2];
    }

    private static double Distance(Spot a, Spot b, PlaneMap map)
    {
        Point2d at = map.Map(a.X, a.Y);
        return Math.Sqrt(((at.X - b.X) * (at.X - b.X)) + ((at.Y - b.Y) * (at.Y - b.Y)));
    }

    private static PlaneMap? Fit(IReadOnlyList<Spot> first, IReadOnlyList<Spot> second, List<(int A, int B)> pairs, double reach, PlaneMap now)
    {
        if (pairs.Count < 3)
        {
            return null;
        }

        using Mat from = Mat.FromArray(pairs.Select(p => new Point2f((float)first[p.A].X, (float)first[p.A].Y)).ToArray());
        using Mat to = Mat.FromArray(pairs.Select(p => new Point2f((float)second[p.B].X, (float)second[p.B].Y)).ToArray());
        Mat? fitted = null;
        try
        {
            if (pairs.Count >= 12)
            {
                // Among few spots a slow walker pulls; among many the mean of all is best.
                fitted = reach > 3 || pairs.Count < Many
                    ? Cv2.FindHomography(InputArray.Create(from), InputArray.Create(to), HomographyMethods.Ransac, Math.Max(0.5, 0.5 * reach))
                    : Cv2.FindHomography(InputArray.Create(from), InputArray.Create(to));
            }
            else
            {
                fitted = pairs.Count >= 6
                    ? Cv2.EstimateAffine2D(from, to, null, RobustEstimationAlgorithms.RANSAC, Math.Max(0.6, 0.5 * reach))
                    : Cv2.EstimateAffinePartial2D(from, to, null, RobustEstimationAlgorithms.RANSAC, Math.Max(1, 0.5 * reach));
            }

            if (fitted is null || fitted.Empty())
            {
                return null;
            }

            PlaneMap map = PlaneMap.From(fitted);

            // A fit that turns the sheet inside out or squeezes it is an accident.
            double zoom = map.ScaleAt(first[pairs[0].A].X, first[pairs[0].A].Y) / now.ScaleAt(first[pairs[0].A].X, first[pairs[0].A].Y);
            return zoom is > 0.5 and < 2 && map.Values.All(double.IsFinite) ? map : null;
        }
        finally
        {
            fitted?.Dispose();
        }
    }
}
