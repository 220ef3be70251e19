namespace LeafScan.Leaves.Chewing;

/// <summary>
/// Tells a bite from the leaf's own dents by its shape. Limits without an option were set on leaves with painted and
/// rendered bites; they are the project's own, no published source.
/// </summary>
internal static class BiteJudge
{
    // Notches between straight-sided teeth have 0.5, gaps between leaflets less, a half circle 0.79.
    private const double LeastFullness = 0.55;

    // A bite whose inside is wider than its mouth is less full, but many times a notch and still a small part of the leaf.
    private const double LeastFullnessOfManyNotches = 0.5;
    private const double ManyNotches = 8;
    private const double LargestShare = 0.04;

    /// <summary>Whether a dent is a bite.</summary>
    /// <param name="dent">The dent.</param>
    /// <param name="teeth">Teeth of the margin, or null when it is smooth.</param>
    /// <param name="leafAreaPx">Area of the leaf.</param>
    /// <param name="options">Limits of a bite in a smooth margin.</param>
    public static bool IsBite(Dent dent, Teeth? teeth, double leafAreaPx, ChewOptions options)
    {
        if (teeth is null)
        {
            return dent.Fullness >= LeastFullness
                && (dent.DepthToMouth >= options.DepthToMouth || IsWide(dent, leafAreaPx, options))
                && dent.CornerDegrees >= options.CornerDegrees;
        }

        (double mouth, double depth, double area) = teeth.Near(dent);
        bool full = dent.Fullness >= LeastFullness
            || (dent.Fullness >= LeastFullnessOfManyNotches && dent.AreaPx > ManyNotches * area && dent.AreaPx < LargestShare * leafAreaPx);
        return full && dent.AreaPx > 3 * area && dent.MouthPx > 1.3 * mouth && dent.DepthPx > 1.2 * depth && dent.DepthToMouth > 0.06;
    }

    // A long stretch eaten to some depth looks shallow for its mouth, as its ends lie below the bulge that is gone.
    private static bool IsWide(Dent dent, double leafAreaPx, ChewOptions options)
    {
        double side = Math.Sqrt(leafAreaPx);
        return dent.MouthPx > 0.35 * side
            && dent.DepthPx > 0.07 * side
            && dent.DepthToMouth >= options.DepthToMouth / 2
            && dent.Fullness >= 0.65;
    }
}
