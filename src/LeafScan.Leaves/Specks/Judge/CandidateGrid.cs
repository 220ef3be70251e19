namespace LeafScan.Leaves.Specks.Judge;

/// <summary>Candidates in square cells, for quick answers about neighbours.</summary>
internal sealed class CandidateGrid
{
    /// <summary>Side of a cell in pixels and the farthest that can be looked.</summary>
    public const double CellPx = 24;

    private readonly Dictionary<(int X, int Y), List<SpeckCandidate>> _cells = [];

    /// <summary>Sorts the candidates in.</summary>
    public CandidateGrid(IEnumerable<SpeckCandidate> candidates)
    {
        foreach (SpeckCandidate c in candidates)
        {
            (int, int) cell = CellOf(c.Mark.X, c.Mark.Y);
            if (!_cells.TryGetValue(cell, out List<SpeckCandidate>? list))
            {
                _cells[cell] = list = [];
            }

            list.Add(c);
        }
    }

    /// <summary>The next candidate within reach that fits, or null.</summary>
    /// <param name="x">Pixels.</param>
    /// <param name="y">Pixels.</param>
    /// <param name="reachPx">At most <see cref="CellPx"/>.</param>
    /// <param name="fits">Which ones count.</param>
    public SpeckCandidate? Next(double x, double y, double reachPx, Func<SpeckCandidate, bool> fits)
    {
        SpeckCandidate? best = null;
        double least = reachPx * reachPx;
        foreach ((SpeckCandidate c, double square) in Near(x, y))
        {
            if (square <= least && fits(c))
            {
                (best, least) = (c, square);
            }
        }

        return best;
    }

    /// <summary>All candidates in the nine cells about a place, with the square of their distance.</summary>
    public IEnumerable<(SpeckCandidate Candidate, double SquarePx)> Near(double x, double y)
    {
        (int cx, int cy) = CellOf(x, y);
        for (int j = cy - 1; j <= cy + 1; j++)
        {
            for (int i = cx - 1; i <= cx + 1; i++)
            {
                if (!_cells.TryGetValue((i, j), out List<SpeckCandidate>? list))
                {
                    continue;
                }

                foreach (SpeckCandidate c in list)
                {
                    double dx = c.Mark.X - x;
                    double dy = c.Mark.Y - y;
                    yield return (c, (dx * dx) + (dy * dy));
                }
            }
        }
    }

    private static (int X, int Y) CellOf(double x, double y) => ((int)Math.Floor(x / CellPx), (int)Math.Floor(y / CellPx));
}
