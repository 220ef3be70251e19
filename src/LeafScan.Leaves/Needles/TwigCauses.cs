using LeafScan.Leaves.Reading;
using static LeafScan.Leaves.Causes.CauseWords;

namespace LeafScan.Leaves.Needles;

/// <summary>
/// Likely causes of what a twig shows, with reasons. Signs are those of extension pages (reference list in docs/method.md):
/// mites mottle needles with pale specks, oldest and inner foliage first; frost, salt and drought brown the tips; needle
/// cast leaves bands or whole brown needles on old wood and no specks on green ones.
/// </summary>
internal static class TwigCauses
{
    private const double LeastScore = 0.15;

    /// <summary>Causes, most likely first; never empty.</summary>
    public static IReadOnlyList<LeafCause> Judge(TwigPattern p)
    {
        LeafCause mites = Mites(p);
        List<LeafCause> causes = [mites, Tips(p), Bands(p), Yellow(p), Dying(p)];
        double free = causes.Aggregate(1.0, (left, cause) => left * (1 - cause.Score));
        causes.Add(new LeafCause("sound", Round(free), [$"only {Percent(p.Shares.Damage)} of the foliage has lost its green"]));
        causes.RemoveAll(cause => cause.Score < LeastScore && cause != mites);
        return [.. causes.Where(cause => cause.Score > 0.001).OrderByDescending(cause => cause.Score)];
    }

    private static LeafCause Mites(TwigPattern p)
    {
        // A dozen specks may be dust; some hundredths of the foliage are mottling.
        double score = Foot(p.Shares.Stippled, 0.009) * Soft(p.SpeckCount, 20);
        return new LeafCause("miteStippling", Round(score),
        [
            $"{Percent(p.Shares.Stippled)} of the foliage is mottled with pale specks, about {Count(p.SpeckCount, "speck", "specks")}",
            "a photo cannot say whether mites are still there: tap the twig over white paper",
        ]);
    }

    private static LeafCause Tips(TwigPattern p)
    {
        double brown = Foot(p.Shares.Browned, 0.02);
        double score = brown * p.TipShare * NoSpecks(p);
        return new LeafCause("tipBrowning", Round(score),
        [
            $"{Percent(p.TipShare)} of the brown foliage are ends of needles that are green below",
            "so drying in winter, salt or drought is likelier than mites; mites mottle first, from the base",
        ]);
    }

    private static LeafCause Bands(TwigPattern p)
    {
        double score = Foot(p.Shares.Browned, 0.02) * p.BandShare * NoSpecks(p);
        return new LeafCause("bandedNeedles", Round(score),
        [
            $"{Percent(p.BandShare)} of the brown foliage are short bands with green on both sides",
            "as needle cast (a fungus) leaves them: look with a lens for rows of black dots on old needles",
        ]);
    }

    private static LeafCause Yellow(TwigPattern p)
    {
        double score = Foot(p.Shares.Yellowed, 0.08) * NoSpecks(p);
        return new LeafCause("evenYellowing", Round(score),
            [$"{Percent(p.Shares.Yellowed)} of the foliage is yellow with hardly any specks: hunger, wet roots or age are possible too"]);
    }

    private static LeafCause Dying(TwigPattern p)
    {
        double whole = Math.Max(0, 1 - p.TipShare - p.BandShare);
        double score = Foot(p.Shares.Browned, 0.06) * whole;
        return new LeafCause("dyingBack", Round(0.8 * score),
            [$"{Percent(p.Shares.Browned)} of the foliage is dead in whole needles or shoots: late mite damage looks so, and so do broken or diseased shoots"]);
    }

    private static double NoSpecks(TwigPattern p) => 1 - Foot(p.Shares.Stippled, 0.015);
}
