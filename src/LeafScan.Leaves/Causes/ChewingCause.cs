using LeafScan.Leaves.Reading;
using static LeafScan.Leaves.Causes.CauseWords;

namespace LeafScan.Leaves.Causes;

/// <summary>Missing leaf.</summary>
internal static class ChewingCause
{
    /// <summary>Chewing.</summary>
    public static LeafCause Of(LeafFeatures f) => new("chewing", Round(Foot(f.Shares.Chewed, 0.015)),
    [
        $"{Percent(f.Shares.Chewed)} of the leaf is missing: {Count(f.BiteCount, "bite", "bites")} at the margin, {Count(f.HoleCount, "hole", "holes")}",
        "missing tissue is never the work of mites; look for beetles, caterpillars and weevils, at dusk as well",
    ]);
}
