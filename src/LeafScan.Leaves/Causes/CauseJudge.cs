using System.Globalization;
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
        List<LeafCause> causes =
        [
            Stippling(f), Chewing(f), LeafSpot(f), EvenYellowing(f), InterveinalYellowing(f), Sound(f),
        ];
        causes.RemoveAll(c => c.Score < LeastScore && c.Cause != "miteStippling");
        causes.Sort((a, b) => b.Score.CompareTo(a.Score));
        return causes.Count > 0 ? causes : [Sound(f) with { Score = 0.5 }];
    }

    private static LeafCause Stippling(LeafFeatures f)
    {
        // Specks by number and by area: thirty specks on a leaf are plain to a trained eye, five are not.
        double byCount = Soft(f.SpeckCount, 25);
        double byArea = Soft(f.Shares.Stippled, 0.006);
        double score = Math.Sqrt(byCount * byArea);
        if (f.Texture is { } texture)
        {
            score = texture.StippleFit * texture.PaleMarks;
        }

        return new LeafCause("miteStippling", Round(score),
        [
            $"{f.SpeckCount.ToString(CultureInfo.InvariantCulture)} pale specks on {Percent(f.Shares.Stippled)} of the leaf",
            "look under the leaf with a 10x lens: skins, round eggs and webbing speak for mites, dark shiny droppings for lace bugs",
            "tap a branch over a white sheet before treating: specks stay after the mites have gone",
        ]);
    }

    private static LeafCause Chewing(LeafFeatures f)
    {
        double score = Soft(f.Shares.Chewed, 0.01);
        return new LeafCause("chewing", Round(score),
        [
            $"{Percent(f.Shares.Chewed)} of the leaf is missing: {Count(f.BiteCount, "bite", "bites")} at the margin, {Count(f.HoleCount, "hole", "holes")}",
            "missing tissue is never the work of mites; look for beetles, caterpillars and weevils, at dusk as well",
        ]);
    }

    private static LeafCause LeafSpot(LeafFeatures f)
    {
        double score = Soft(f.Shares.Browned, 0.01) * (f.BrownPatchCount > 0 ? 1 - (0.6 * f.BrownAtMarginShare) : 0);
        return new LeafCause("leafSpot", Round(score),
        [
            $"{Count(f.BrownPatchCount, "brown patch", "brown patches")} on {Percent(f.Shares.Browned)} of the leaf, larger than specks",
            "look with a lens for a rim, a yellow ring or tiny dark bodies in the patch",
        ]);
    }

    private static LeafCause EvenYellowing(LeafFeatures f)
    {
        double score = Soft(Math.Max(0, f.Shares.Yellowed - 0.3), 0.2) * (1 - (0.7 * f.YellowNearSpecksShare));
        return new LeafCause("evenYellowing", Round(score),
        [
            $"{Percent(f.Shares.Yellowed)} of the leaf is yellowed without specks in it",
            "think of season, drought, roots and nutrition first",
        ]);
    }

    private static LeafCause InterveinalYellowing(LeafFeatures f)
    {
        double patchy = f.Shares.Yellowed is > 0.02 and < 0.6 ? 1 : 0.3;
        double score = Soft(f.Shares.Yellowed, 0.06) * patchy * (1 - f.YellowNearSpecksShare) * 0.8;
        return new LeafCause("interveinalYellowing", Round(score),
        [
            $"yellow patches on {Percent(f.Shares.Yellowed)} of the leaf, mostly away from specks",
            "compare several leaves: the same pattern on old or on young leaves only speaks for nutrition",
        ]);
    }

    private static LeafCause Sound(LeafFeatures f)
    {
        double hurt = f.Shares.Damage + f.Shares.Chewed;
        double score = 1 - Soft(hurt, 0.012);
        return new LeafCause("sound", Round(score), [$"only {Percent(hurt)} of the leaf is damaged or missing"]);
    }

    // 0 at nothing, 0.5 at the half-way value, towards 1 beyond it.
    private static double Soft(double value, double halfWay) => value <= 0 ? 0 : value / (value + halfWay);

    private static double Round(double score) => Math.Round(score, 3);

    private static string Percent(double share) => (share * 100).ToString(share < 0.1 ? "0.0" : "0", CultureInfo.InvariantCulture) + " %";

    private static string Count(int n, string one, string many) => n == 1 ? $"1 {one}" : $"{n.ToString(CultureInfo.InvariantCulture)} {many}";
}
