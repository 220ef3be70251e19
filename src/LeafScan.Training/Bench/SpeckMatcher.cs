using LeafScan.Leaves.Reading;
using LeafScan.Training.Rendering.Damage;

namespace LeafScan.Training.Bench;

/// <summary>
/// Pairs true and measured specks, each at most once, nearest pairs first. A pair lies within the larger of 3 pixels and
/// half the true diameter. Nearest-first is not always the largest possible number of pairs, but never pairs across a nearer one.
/// </summary>
internal static class SpeckMatcher
{
    private const double LeastReachPx = 3;

    /// <summary>For each true speck, whether it was found.</summary>
    public static bool[] Match(IReadOnlyList<Speck> truth, IReadOnlyList<SpeckMark> found)
        => Array.ConvertAll(Pair(truth, found), j => j >= 0);

    /// <summary>For each true speck, the number of the found one that it was paired with; -1 for none.</summary>
    public static int[] Pair(IReadOnlyList<Speck> truth, IReadOnlyList<SpeckMark> found)
    {
        double reach = Math.Max(LeastReachPx, truth.Count == 0 ? 0 : truth.Max(s => s.DiameterPx) / 2);
        Dictionary<(int, int), List<int>> cells = [];
        for (int i = 0; i < found.Count; i++)
        {
            (int, int) cell = Cell(found[i].X, found[i].Y, reach);
            if (!cells.TryGetValue(cell, out List<int>? list))
            {
                cells[cell] = list = [];
            }

            list.Add(i);
        }

        List<(double Distance, int Truth, int Found)> pairs = [];
        for (int i = 0; i < truth.Count; i++)
        {
            (int cx, int cy) = Cell(truth[i].X, truth[i].Y, reach);
            double own = Math.Max(LeastReachPx, truth[i].DiameterPx / 2);
            for (int y = cy - 1; y <= cy + 1; y++)
            {
                for (int x = cx - 1; x <= cx + 1; x++)
                {
                    foreach (int j in cells.GetValueOrDefault((x, y)) ?? [])
                    {
                        double distance = Math.Sqrt(Math.Pow(truth[i].X - found[j].X, 2) + Math.Pow(truth[i].Y - found[j].Y, 2));
                        if (distance <= own)
                        {
                            pairs.Add((distance, i, j));
                        }
                    }
                }
            }
        }

        int[] partner = new int[truth.Count];
        Array.Fill(partner, -1);
        bool[] used = new bool[found.Count];
        foreach ((_, int i, int j) in pairs.Order())
        {
            if (partner[i] < 0 && !used[j])
            {
                partner[i] = j;
                used[j] = true;
            }
        }

        return partner;
    }

    private static (int X, int Y) Cell(double x, double y, double size) => ((int)Math.Floor(x / size), (int)Math.Floor(y / size));
}
