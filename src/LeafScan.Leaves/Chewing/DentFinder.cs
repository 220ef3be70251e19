namespace LeafScan.Leaves.Chewing;

/// <summary>Cuts a margin into dents: stretches that lie under the rolled outline (<see cref="Envelope"/>).</summary>
internal static class DentFinder
{
    private const double TolerancePx = 1.2;

    /// <summary>All dents of at least <paramref name="smallestPx"/> area.</summary>
    public static List<Dent> Find(MarginLine line, double[] depths, double smallestPx)
    {
        List<Dent> dents = [];
        int anchor = Array.FindIndex(depths, d => d < TolerancePx);
        if (anchor < 0)
        {
            return dents;
        }

        int start = -1;
        for (int i = anchor; i <= anchor + depths.Length; i++)
        {
            bool under = depths[i % depths.Length] >= TolerancePx;
            if (under && start < 0)
            {
                start = i;
            }
            else if (!under && start >= 0)
            {
                if (Measure(line, start - 1, i) is { } dent && dent.AreaPx >= smallestPx)
                {
                    dents.Add(dent);
                }

                start = -1;
            }
        }

        return dents;
    }

    private static Dent? Measure(MarginLine line, int from, int to)
    {
        int start = line.SharpestCorner(from - line.Step, from + line.Step);
        int end = line.SharpestCorner(to - line.Step, to + line.Step);
        return Between(line, start, end);
    }

    /// <summary>The dent between two places, or null when it is too short or longer than half the margin.</summary>
    public static Dent? Between(MarginLine line, int start, int end)
    {
        if (end - start < 6 || end - start > line.Length / 2)
        {
            return null;
        }

        (double mouth, double depth, double area) = line.UnderChord(start, end);
        return new Dent(start, end, mouth, depth, area, Math.Min(line.Turn(start), line.Turn(end)));
    }
}
