namespace LeafScan.Leaves.Chewing;

/// <summary>
/// Long eaten stretches of a toothed margin. What eats a leaf goes on where it stopped: beside a sure bite a dent need be
/// only somewhat more than a notch, and bites that touch are rebuilt as one, as the margin left between them is eaten too.
/// </summary>
internal static class EatenStretches
{
    /// <summary>Sure bites with the dents that go on from them, those that touch made one.</summary>
    public static List<Dent> Grow(List<Dent> bites, List<Dent> dents, Teeth teeth, MarginLine line, double leafSidePx, double leastEvidence)
    {
        List<Dent> grown = [.. bites];
        bool more = true;
        while (more)
        {
            more = false;
            foreach (Dent dent in dents)
            {
                if (!grown.Any(b => b.Overlaps(dent, line.Length))
                    && grown.Any(b => Gap(b, dent, line) <= line.Step || Gap(dent, b, line) <= line.Step)
                    && GoesOn(dent, teeth))
                {
                    grown.Add(dent);
                    more = true;
                }
            }
        }

        return Joined(grown.OrderBy(b => b.Start).ToList(), teeth, line, leafSidePx, leastEvidence);
    }

    private static bool GoesOn(Dent dent, Teeth teeth)
    {
        (double mouth, double depth, double area) = teeth.Near(dent);
        return dent.AreaPx > 2 * area && dent.MouthPx > mouth && dent.DepthPx > 1.1 * depth;
    }

    private static List<Dent> Joined(List<Dent> bites, Teeth teeth, MarginLine line, double leafSidePx, double leastEvidence)
    {
        List<Dent> joined = [];
        foreach (Dent bite in bites)
        {
            if (joined.Count > 0
                && Gap(joined[^1], bite, line) <= 2 * line.Step
                && DentFinder.Between(line, joined[^1].Start, bite.End) is { } both
                && both.DepthToMouth > 0.05
                && both.Fullness > 0.3
                && BiteJudge.Evidence(both, line, teeth, leafSidePx) > leastEvidence)
            {
                joined[^1] = both;
            }
            else
            {
                joined.Add(bite);
            }
        }

        return joined;
    }

    // Points of the margin from the end of one dent on to the start of another.
    private static int Gap(Dent before, Dent after, MarginLine line)
    {
        int gap = (after.Start - before.End) % line.Length;
        return gap < -line.Step ? gap + line.Length : Math.Max(0, gap);
    }
}
