using LeafScan.Leaves.Reading;
using LeafScan.Training.Rendering.Damage;

namespace LeafScan.Training.Bench;

/// <summary>
/// Pairs true and measured specks, each at most once. A pair lies within the larger of 3 pixels and half the true diameter.
/// <see cref="Pair"/> takes the nearest pairs first, which never pairs across a nearer one but in a crowd not always makes as many
/// pairs as there can be; <see cref="MostPairs"/> counts how many there can be.
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
        int[] partner = new int[truth.Count];
        Array.Fill(partner, -1);
        bool[] used = new bool[found.Count];
        foreach ((_, int i, int j) in InReach(truth, found).Order())
        {
            if (partner[i] < 0 && !used[j])
            {
                partner[i] = j;
                used[j] = true;
            }
        }

        return partner;
    }

    /// <summary>
    /// The largest number of pairs that can be made: a maximum matching of the two sides, by augmenting paths from the nearest-first
    /// pairs on (C. Berge, Two theorems in graph theory, PNAS 43, 1957, 842-844: a matching without an augmenting path is largest).
    /// </summary>
    public static int MostPairs(IReadOnlyList<Speck> truth, IReadOnlyList<SpeckMark> found)
    {
        List<int>[] reached = [.. Enumerable.Range(0, truth.Count).Select(_ => new List<int>())];
        foreach ((_, int i, int j) in InReach(truth, found).Order())
        {
            reached[i].Add(j);
        }

        int[] partner = Pair(truth, found);
        int[] owner = new int[found.Count];
        Array.Fill(owner, -1);
        for (int i = 0; i < partner.Length; i++)
        {
            if (partner[i] >= 0)
            {
                owner[partner[i]] = i;
            }
        }

        int[] seen = new int[found.Count];
        for (int i = 0; i < partner.Length; i++)
        {
            if (partner[i] < 0)
            {
                Augment(i, reached, partner, owner, seen);
            }
        }

        return partner.Count(j => j >= 0);
    }

    // Breadth first: a path from a true speck without a mark over pairs to a mark without a true speck, along which all change partners.
    private static void Augment(int start, List<int>[] reached, int[] partner, int[] owner, int[] seen)
    {
        Dictionary<int, int> from = [];
        Queue<int> open = new([start]);
        while (open.TryDequeue(out int i))
        {
            foreach (int j in reached[i])
            {
                if (seen[j] == start + 1)
                {
                    continue;
                }

                seen[j] = start + 1;
                from[j] = i;
                if (owner[j] >= 0)
                {
                    open.Enqueue(owner[j]);
                    continue;
                }

                // Back along the path: each true speck takes the mark it reached, and leaves the one it had to the speck before it.
                for (int mark = j; ;)
                {
                    int taker = from[mark];
                    int left = partner[taker];
                    (owner[mark], partner[taker]) = (taker, mark);
                    if (taker == start)
                    {
                        return;
                    }

                    mark = left;
                }
            }
        }
    }

    // All pairs in reach of one another, in no order.
    private static List<(double Distance, int Truth, int Found)> InReach(IReadOnlyList<Speck> truth, IReadOnlyList<SpeckMark> found)
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

        return pairs;
    }

    private static (int X, int Y) Cell(double x, double y, double size) => ((int)Math.Floor(x / size), (int)Math.Floor(y / size));
}
