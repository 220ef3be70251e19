using LeafScan.Frame;
using LeafScan.Taps.Spots;
using OpenCvSharp;

namespace LeafScan.Taps.Lining;

/// <summary>Spots of two photos that are each other's nearest.</summary>
internal static class SpotPairs
{
    private const double MassRatio = 2;

    /// <summary>Pairs within reach, alike in mass, each the nearest of the other.</summary>
    public static List<(int A, int B)> Mutual(IReadOnlyList<Spot> first, IReadOnlyList<Spot> second, PlaneMap map, double reach)
    {
        SpotGrid grid = SpotGrid.Of(second, Math.Max(4, reach));
        int[] owner = Enumerable.Repeat(-1, second.Count).ToArray();
        double[] least = Enumerable.Repeat(double.MaxValue, second.Count).ToArray();
        double zoom = first.Count == 0 ? 1 : map.ScaleAt(first[0].X, first[0].Y);
        for (int i = 0; i < first.Count; i++)
        {
            Spot a = first[i];
            double mass = a.Mass * zoom * zoom;
            Point2d at = map.Map(a.X, a.Y);
            int nearest = -1;
            double best = double.MaxValue;
            foreach ((int k, double squared) in grid.Near(at, reach))
            {
                if (squared < best && mass < MassRatio * second[k].Mass && second[k].Mass < MassRatio * mass)
                {
                    (nearest, best) = (k, squared);
                }
            }

            if (nearest >= 0 && best < least[nearest])
            {
                least[nearest] = best;
                owner[nearest] = i;
            }
        }

        return [.. Enumerable.Range(0, second.Count).Where(k => owner[k] >= 0).Select(k => (owner[k], k))];
    }
}
