namespace LeafScan.Leaves.Chewing;

/// <summary>
/// Tells a bite from the leaf's own dents by its shape: a bite is full and round, its ends are corners, and the margin
/// outside it runs on over its mouth. Notches are pointed, gaps between lobes and leaflets fall in from both sides.
/// </summary>
/// <remarks>
/// The evidence is a sum of weighted measures, as a logarithm of odds. The weights were fitted (logistic regression) on dents of
/// leaves with painted and rendered bites and of sound leaves, half of them; docs/method.md tells which. No published source.
/// </remarks>
internal static class BiteJudge
{
    // Both angles of the margin at the mouth together, degrees; a dent that falls in so far from both sides is a gap.
    private const double FallingIn = -60;
    private const double FullestGap = 0.65;

    // A dent between two bulges that lean over it from both sides, degrees each, is the notch of a base or lies between lobes.
    private const double BulgingOver = 52;

    // From this depth on, as a share of the leaf's side, a dent is more and more likely the leaf's own shape.
    private const double UsualDepth = 0.12;

    private static readonly Weights Smooth = new(-15.27, 14.94, 2.12, 5.53, -0.31, -2.54, -0.57, 0.82, -0.99, 0, 0);
    private static readonly Weights Toothed = new(-8.35, 24.32, 1.92, 1.48, -0.25, -6.39, -3.39, 5.93, -6.87, -3.26, 1.07);

    /// <summary>How much speaks for a bite, as a logarithm of odds: 0 is even.</summary>
    /// <param name="dent">The dent.</param>
    /// <param name="line">The margin.</param>
    /// <param name="teeth">Teeth of the margin, or null when it is smooth.</param>
    /// <param name="leafSidePx">Square root of the leaf's area.</param>
    public static double Evidence(Dent dent, MarginLine line, Teeth? teeth, double leafSidePx)
    {
        if (teeth is null && !IsDeepEnough(dent, leafSidePx))
        {
            return double.NegativeInfinity;
        }

        MouthEnds ends = MouthEnds.Of(line, dent, teeth);
        double first = ends.First * 180 / Math.PI;
        double last = ends.Last * 180 / Math.PI;
        if ((first + last < FallingIn && dent.Fullness < FullestGap) || Math.Min(first, last) > BulgingOver)
        {
            return double.NegativeInfinity;
        }

        double start = line.Turn(dent.Start);
        double end = line.Turn(dent.End);
        Weights w = teeth is null ? Smooth : Toothed;
        double evidence = w.Even
            + (w.Full * dent.Fullness)
            + (w.BluntCorner * Math.Min(Math.Min(start, end), 90) / 90)
            + (w.SharpCorner * Math.Min(Math.Max(start, end), 110) / 90)
            + (w.OneBulge * Math.Max(0, Math.Max(first, last) - 25) / 45)
            + (w.BothBulge * Math.Max(0, Math.Min(first, last) - 25) / 45)
            + (w.DepthToMouth * Math.Log(Math.Max(0.02, dent.DepthToMouth)))
            + (w.Mouth * Math.Log(Math.Max(0.005, dent.MouthPx / leafSidePx)))
            + (w.Deep * Math.Max(0, (dent.DepthPx / leafSidePx) - UsualDepth) / 0.1);
        if (teeth is not null)
        {
            (double mouth, _, double area) = teeth.Near(dent);
            evidence += (w.MouthToNotch * Math.Log(Math.Max(0.1, dent.MouthPx / Math.Max(1, mouth))))
                + (w.AreaToNotch * Math.Log(Math.Max(0.05, dent.AreaPx / Math.Max(1, area))));
        }

        return evidence;
    }

    // A smooth margin waves: a shallow dent is a bite only where it is long, as its ends lie below the bulge that is gone.
    private static bool IsDeepEnough(Dent dent, double leafSidePx)
        => dent.DepthToMouth >= 0.2
            || (dent.DepthToMouth >= 0.1 && dent.MouthPx > 0.35 * leafSidePx && dent.DepthPx > 0.07 * leafSidePx && dent.Fullness >= 0.65);

    private sealed record Weights(
        double Even,
        double Full,
        double BluntCorner,
        double SharpCorner,
        double OneBulge,
        double BothBulge,
        double DepthToMouth,
        double Mouth,
        double Deep,
        double MouthToNotch,
        double AreaToNotch);
}
