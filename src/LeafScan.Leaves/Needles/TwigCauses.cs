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

    // Brown at the ends of needles lies at up to four fifths of the mean depth of all foliage, bands lie at nine tenths and more (renders).
    private const double EndsAt = 0.85;

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
        double score = Foot(p.Mottled, 0.009) * Soft(p.SpeckCount, 20);
        return new LeafCause("miteStippling", Round(score),
        [
            $"{Percent(p.Mottled)} of the foliage is mottled with pale specks away from brown, about {Count(p.SpeckCount, "speck", "specks")}",
            "a photo cannot say whether mites are still there: tap the twig over white paper",
        ]);
    }

    private static LeafCause Tips(TwigPattern p)
    {
        double brown = Foot(p.Shares.Browned, 0.02);
        double score = brown * AtEnds(p) * NoSpecks(p);
        return new LeafCause("tipBrowning", Round(score),
        [
            $"the brown sits at the outer ends of needles and shoots: on average {Percent(p.DepthOfBrown)} as deep in the twig as all foliage",
            "so drying in winter, salt or drought is likelier than mites; mites mottle first, from the base",
        ]);
    }

    private static LeafCause Bands(TwigPattern p)
    {
        double score = Foot(p.Shares.Browned, 0.02) * Banded(p) * NoSpecks(p);
        return new LeafCause("bandedNeedles", Round(score),
        [
            $"green touches {Percent(p.Held)} of the edges of the brown pieces, which lie as deep in the twig as the rest: bands across needles",
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
        double whole = Math.Max(0, 1 - AtEnds(p) - Banded(p));
        double score = Foot(p.Shares.Browned, 0.06) * whole;
        return new LeafCause("dyingBack", Round(0.8 * score),
            [$"{Percent(p.Shares.Browned)} of the foliage is dead in whole needles or shoots: late mite damage looks so, and so do broken or diseased shoots"]);
    }

    // Ends lie outside; bands lie as deep as all foliage, and green touches most of their edges.
    private static double AtEnds(TwigPattern p) => Ramp(EndsAt - p.DepthOfBrown, -0.06, 0.06) * Parts(p);

    private static double Banded(TwigPattern p) => (1 - AtEnds(p)) * Parts(p) * Math.Max(Ramp(p.Held, 0.5, 0.62), 0.8 * p.BandShare);

    // Pieces of a needle or of its end have a few needle widths squared, whole dead needles and shoots six and more (90 renders).
    private static double Parts(TwigPattern p) => Ramp(-p.BrownSize, -6, -3.5);

    private static double NoSpecks(TwigPattern p) => 1 - Foot(p.Mottled, 0.015);

    private static double Ramp(double value, double from, double to) => Math.Clamp((value - from) / (to - from), 0, 1);
}
