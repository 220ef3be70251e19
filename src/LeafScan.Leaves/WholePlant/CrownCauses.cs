using LeafScan.Leaves.Reading;
using static LeafScan.Leaves.Causes.CauseWords;

namespace LeafScan.Leaves.WholePlant;

/// <summary>
/// Likely causes of what a whole plant shows. From metres away no speck can be seen: mites are never more than a guess here,
/// made from patches of dull yellow and bronze, and the advice is always to look at twigs from near.
/// </summary>
internal static class CrownCauses
{
    // Seen from afar nothing is surer than this.
    private const double MostMites = 0.6;

    /// <summary>Causes, most likely first; never empty.</summary>
    /// <param name="shares">Shares of the foliage.</param>
    /// <param name="crown">Gaps, sides, fall colour.</param>
    /// <param name="patchiness">See <see cref="CrownSectors.Patchiness"/>.</param>
    /// <param name="season">See <see cref="Season"/>.</param>
    /// <param name="newGrowth">Share of fresh growth.</param>
    public static IReadOnlyList<LeafCause> Judge(LeafShares shares, CrownReading crown, double patchiness, Season season, double newGrowth)
    {
        double even = season.MayBeFallColour ? 0.8 : 0;
        double fallScore = Math.Max(Foot(crown.FallColour, 0.06), even);
        double hurt = shares.Yellowed + (0.5 * shares.Browned);
        string where = crown.WorstSide == "none" ? "no side stands out" : $"the {crown.WorstSide} side is hit hardest";
        double mites = MostMites * Foot(hurt, 0.08) * (1 - fallScore);
        double thin = Foot(crown.Thinning, 0.12);
        List<LeafCause> causes =
        [
            new("miteStippling", Round(mites),
            [
                $"{Percent(shares.Yellowed)} of the foliage is yellow or bronze and {Percent(shares.Browned)} brown; {where}",
                "from this far no speck can be seen: photograph twigs or leaves from near, and tap them over white paper",
            ]),
            new("dyingBack", Round(0.8 * Math.Max(Foot(shares.Browned, 0.12), thin)),
                [$"{Percent(shares.Browned)} of the foliage is dead and {Percent(crown.Thinning)} of the crown is gap: old mite damage, drought, roots and cold look alike from afar"]),
            new("evenYellowing", Round(0.7 * Foot(shares.Yellowed, 0.15) * (1 - Soft(patchiness, 0.5))), ["yellow is spread evenly over the plant, as hunger or wet roots make it"]),
            new("fallColour", Round(fallScore),
                [season.MayBeFallColour ? $"the colour is even over the plant and the photo is of {season.MonthName}" : $"{Percent(crown.FallColour)} of the foliage is clear red, as leaves turn in fall and not as they die"]),
        ];
        double free = causes.Aggregate(1.0, (left, cause) => left * (1 - cause.Score));
        causes.Add(new LeafCause("sound", Round(free), [$"only {Percent(shares.Damage)} of the foliage has lost its green and {Percent(crown.Thinning)} of the crown is gap"]));
        causes.Add(new LeafCause("newGrowth", Round(0.4 * Foot(newGrowth, 0.1)), [$"{Percent(newGrowth)} of the foliage is bright fresh growth, which counts as sound"]));
        causes.RemoveAll(cause => cause.Score < 0.15);
        return [.. causes.OrderByDescending(cause => cause.Score)];
    }
}
