using LeafScan.Leaves.Reading;

namespace LeafScan.Leaves.Causes;

/// <summary>
/// Orders the likely causes of what was measured, with reasons in words. Signatures of the causes are common practice in
/// scouting (many tiny pale dots: mites or lace bugs; missing tissue: chewing; brown patches of millimetres: leaf spot;
/// yellow without dots: nutrition, season). A photo alone cannot tell mites from lace bugs and never says that mites are
/// still there.
/// </summary>
internal static class CauseJudge
{
    private const double LeastScore = 0.15;

    /// <summary>Causes, most likely first; never empty.</summary>
    public static IReadOnlyList<LeafCause> Judge(LeafFeatures f)
    {
        LeafCause mites = StippleCauses.Mites(f);
        List<LeafCause> harm =
        [
            mites, StippleCauses.LaceBugs(f, mites.Score), ChewingCause.Of(f), LeafSpotCause.Of(f),
            YellowCauses.Interveinal(f), YellowCauses.OverMost(f),
        ];
        List<LeafCause> causes = [.. harm, SoundCauses.Sound(f, harm), SoundCauses.GlareOnly(f, harm)];
        causes.RemoveAll(c => c.Score < LeastScore && c != mites);
        if (mites.Score <= 0.001)
        {
            causes.Remove(mites);
        }

        // Equal scores keep the order above.
        List<LeafCause> ordered = causes.OrderByDescending(c => c.Score).ToList();
        return ordered.Count > 0 ? ordered : [SoundCauses.Sound(f, [])];
    }
}
