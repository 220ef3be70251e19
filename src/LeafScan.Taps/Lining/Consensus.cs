using LeafScan.Frame;
using LeafScan.Taps.Spots;
using OpenCvSharp;

namespace LeafScan.Taps.Lining;

/// <summary>
/// Lines up photos of a nearly clean sheet. With a dozen specks, walkers among them, a map that fits all of them roughly is
/// easily wrong; one that fits some of them within a pixel hardly ever is. Of three kinds of map (turn and zoom; shear
/// too; a view from another side) the richer one is taken only when it explains more specks than its own freedom does.
/// </summary>
internal static class Consensus
{
    private const double TightPx = 0.8;
    private const int Tries = 4000;
    private const double Sure = 0.9999;

    /// <summary>The best map; null when too few specks agree.</summary>
    /// <param name="first">Spots of the first photo.</param>
    /// <param name="second">Spots of the second photo.</param>
    /// <param name="pairs">Pairs that may belong together.</param>
    public static PlaneMap? Of(IReadOnlyList<Spot> first, IReadOnlyList<Spot> second, List<(int A, int B)> pairs)
    {
        if (pairs.Count < 4)
        {
            return null;
        }

        using Mat from = Mat.FromArray(pairs.Select(p => new Point2f((float)first[p.A].X, (float)first[p.A].Y)).ToArray());
        using Mat to = Mat.FromArray(pairs.Select(p => new Point2f((float)second[p.B].X, (float)second[p.B].Y)).ToArray());
        PlaneMap? best = null;
        double most = 1.5;
        foreach ((int free, Func<Mat?> fit) in new (int, Func<Mat?>)[]
        {
            (2, () => Cv2.EstimateAffinePartial2D(from, to, null, RobustEstimationAlgorithms.RANSAC, TightPx, Tries, Sure)),
            (3, () => Cv2.EstimateAffine2D(from, to, null, RobustEstimationAlgorithms.RANSAC, TightPx, Tries, Sure)),
            (4, () => Cv2.FindHomography(InputArray.Create(from), InputArray.Create(to), HomographyMethods.Ransac, TightPx, null, Tries, Sure)),
        })
        {
            if (free >= pairs.Count)
            {
                continue;
            }

            using Mat? fitted = fit();
            if (fitted is null || fitted.Empty())
            {
                continue;
            }

            PlaneMap map = PlaneMap.From(fitted);

            // As many specks as a map has places to choose always fit; what counts is the rest.
            double rest = Agreeing(first, second, pairs, map) - (1.5 * free);
            if (rest > most + (best is null ? 0 : 0.5))
            {
                (best, most) = (map, rest);
            }
        }

        return best;
    }

    private static int Agreeing(IReadOnlyList<Spot> first, IReadOnlyList<Spot> second, List<(int A, int B)> pairs, PlaneMap map) => pairs.Count(p =>
    {
        Point2d off = map.Map(first[p.A].X, first[p.A].Y) - new Point2d(second[p.B].X, second[p.B].Y);
        return (off.X * off.X) + (off.Y * off.Y) < 1.2 * TightPx * TightPx;
    });
}
