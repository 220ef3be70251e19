using System.Globalization;
using LeafScan.Trends.Efficacy;
using static LeafScan.Trends.Verdicts.VerdictText;

namespace LeafScan.Trends.Verdicts;

/// <summary>
/// Efficacy of the care by the formulas of trials, on live mites of taps and never on damage, which cannot fall. Which of them applies
/// hangs on what was counted: Henderson-Tilton and Sun-Shepard want counts before and since on both sides; Abbott has counts since alone
/// and so holds only for plants that began alike.
/// </summary>
/// <param name="HendersonTilton">Share taken; null where it cannot say.</param>
/// <param name="SunShepard">The same by the other form.</param>
/// <param name="Abbott">Share taken by counts since alone; null where it does not apply.</param>
/// <param name="Because">Which applies, and why the others do not.</param>
internal sealed record CareEfficacy(double? HendersonTilton, double? SunShepard, double? Abbott, string Because)
{
    // Counts before that lie within a quarter of each other are called alike. Our own choice.
    private const double AlikeWithin = 1.25;

    /// <summary>Works it out.</summary>
    public static CareEfficacy Of(PlantHistory plant, CareWindow window, Evidence evidence, VerdictOptions options)
    {
        if (plant.CheckPlants.Count == 0)
        {
            return None("There is no untreated plant beside it, so no formula tells what the care took.");
        }

        // The formulas with counts before are ratios on each side; Abbott lays one side beside the other, so both need the same strikes.
        double strikes = TapChange.MeanStrikes([.. plant.Taps, .. plant.CheckPlants.SelectMany(check => check.Taps)]);
        (double Mean, double Counted)? treated = TapChange.SinceOf([plant.Taps], window, options, strikes);
        (double Mean, double Counted)? checks = TapChange.SinceOf(plant.CheckPlants.Select(check => check.Taps), window, options, strikes);
        if (treated is null || checks is null)
        {
            return None($"No formula tells what the care took: there is no dry tap since on {(treated is null ? "this plant" : "the untreated plants")}.");
        }

        return evidence.Taps is { } own && evidence.CheckTaps is { } others
            ? WithBefore(
                own, others, TapChange.Of([plant.Taps], window, options, strikes)!, TapChange.Of([.. plant.CheckPlants.Select(check => check.Taps)], window, options, strikes)!, options)
            : WithoutBefore(treated.Value, checks.Value, evidence, options);
    }

    /// <summary>Henderson and Tilton's formula.</summary>
    public static EfficacyResult HendersonAndTilton(TapChange treated, TapChange checks)
        => LiveCounts.HendersonTilton(checks.Before, checks.Since, treated.Before, treated.Since);

    private static CareEfficacy WithBefore(TapChange own, TapChange others, TapChange treated, TapChange checks, VerdictOptions options)
    {
        EfficacyResult both = HendersonAndTilton(own, others);
        if (both.Share is null)
        {
            return None(both.Because!);
        }

        double? other = LiveCounts.SunShepard(others.Before, others.Since, own.Before, own.Since).Share;
        string before = $"{Number(treated.Before)} here and {Number(checks.Before)} on the untreated plants";
        const string Both = "Henderson-Tilton and Sun-Shepard, the same formula in two forms, apply: mites were counted before and since on both sides.";
        if (Math.Max(treated.Before, checks.Before) > AlikeWithin * Math.Min(treated.Before, checks.Before))
        {
            return new CareEfficacy(both.Share, other, null, $"{Both} Abbott does not: it is for plants that began alike, and live mites a tap before were {before}.");
        }

        return checks.CountedSince < options.MitesLeast
            ? new CareEfficacy(both.Share, other, null, $"{Both} Abbott does not: {Few(options)}.")
            : new CareEfficacy(both.Share, other, LiveCounts.Abbott(checks.Since, treated.Since).Share, $"{Both} Abbott applies too, because they began alike: live mites a tap before were {before}.");
    }

    private static CareEfficacy WithoutBefore((double Mean, double Counted) treated, (double Mean, double Counted) checks, Evidence evidence, VerdictOptions options)
    {
        string where = (evidence.Taps is null, evidence.CheckTaps is null) switch
        {
            (true, true) => "either side",
            (true, false) => "this plant",
            _ => "the untreated plants",
        };
        string why = $"Henderson-Tilton and Sun-Shepard do not apply: no dry tap before the care is on record for {where}.";
        return checks.Counted < options.MitesLeast
            ? None($"{why} Abbott does not either: {Few(options)}.")
            : new CareEfficacy(null, null, LiveCounts.Abbott(checks.Mean, treated.Mean).Share, $"{why} Abbott needs counts since alone, and holds only if the plants began alike, which nobody counted.");
    }

    private static string Few(VerdictOptions options)
        => string.Create(CultureInfo.InvariantCulture, $"fewer than {options.MitesLeast} live mites were counted on the untreated plants since");

    private static CareEfficacy None(string because) => new(null, null, null, because);
}
