using MathNet.Numerics.Distributions;

namespace LeafScan.Trends.Verdicts;

/// <summary>What the figures before and since the care say, each line of evidence by itself.</summary>
internal sealed record Evidence
{
    /// <summary>Same leaves of the plant.</summary>
    public required SameLeaves Leaves { get; init; }

    /// <summary>Taps of the plant; null without.</summary>
    public required TapChange? Taps { get; init; }

    /// <summary>Taps of the check plants; null without.</summary>
    public required TapChange? CheckTaps { get; init; }

    /// <summary>Logarithm of what the care left of the mites, against the check plants; null without taps on both.</summary>
    public required Estimate? RestByTaps { get; init; }

    /// <summary>Same leaves of the check plants, those that can be followed.</summary>
    public required IReadOnlyList<SameLeaves> CheckLeaves { get; init; }

    /// <summary>The same leaves surely gain more a week than before.</summary>
    public bool LeavesGainMore { get; private init; }

    /// <summary>The same leaves surely gain less than half as much a week as before.</summary>
    public bool LeavesGainLess { get; private init; }

    /// <summary>Taps surely show more mites than before.</summary>
    public bool MoreMites { get; private init; }

    /// <summary>Taps surely show less than half the mites.</summary>
    public bool FewerMites { get; private init; }

    /// <summary>Dry taps since find hardly a mite, so that leaves that still gain show old feeding or other photos.</summary>
    public bool HardlyAnyMites { get; private init; }

    /// <summary>Against check plants the mites are clearly fewer.</summary>
    public bool TapsBeatChecks { get; private init; }

    /// <summary>Against check plants the mites are as many.</summary>
    public bool TapsAsChecks { get; private init; }

    /// <summary>Against check plants the leaves gain clearly less.</summary>
    public bool LeavesBeatChecks { get; private init; }

    /// <summary>Against check plants the leaves gain as much.</summary>
    public bool LeavesAsChecks { get; private init; }

    /// <summary>Clearly better than the check plants, yet with more than before.</summary>
    public bool SlowsOnly { get; private init; }

    private double PlantSpread { get; init; }

    /// <summary>Gathers the evidence.</summary>
    public static Evidence Of(PlantHistory plant, IReadOnlyList<HistoryVisit> visits, CareWindow window, VerdictOptions options)
    {
        // Plants do not crash on the same day, so that in that season one differs more from the next.
        bool isQuiet = QuietSeason.Begins(plant.Calendar, window.FirstCare, Rivals.LastDay(plant, visits, window)) is not null;
        double plantSpread = isQuiet ? options.PlantSpreadQuietSeason : options.PlantSpread;
        SameLeaves leaves = SameLeaves.Of(visits, window, options);
        TapChange? taps = TapChange.Of([plant.Taps], window, options);
        TapChange? checkTaps = TapChange.Of([.. plant.CheckPlants.Select(check => check.Taps)], window, options);
        SameLeaves[] checks = [.. plant.CheckPlants.Select(check => SameLeaves.Of(Visits.ByDay(check.Visits), window, options)).Where(check => check.Before is not null && check.Since is not null)];
        Evidence evidence = new()
        {
            Leaves = leaves,
            Taps = taps,
            CheckTaps = checkTaps,
            RestByTaps = RestOf(taps, checkTaps, plant.CheckPlants.Count(check => check.Taps.Count > 0), plantSpread),
            CheckLeaves = checks,
            PlantSpread = plantSpread,
        };
        return evidence.Weighed(options);
    }

    /// <summary>Before and since by themselves: clearly less, and what else was recorded does not speak against it.</summary>
    public bool LessAlone(VerdictOptions options)
    {
        bool tapsAgree = Taps is null || Taps.CountedBefore < options.MitesLeast || Taps.LogRatio.Value < Math.Log(options.RestIfWorking);
        return FewerMites || (LeavesGainLess && tapsAgree);
    }

    private static Estimate? RestOf(TapChange? taps, TapChange? checks, int checkCount, double plantSpread)
    {
        if (taps is null || checks is null)
        {
            return null;
        }

        // One plant differs from the next even when both are treated alike.
        double plants = plantSpread * plantSpread * (1 + (1.0 / Math.Max(1, checkCount)));
        double error = Math.Sqrt((taps.LogRatio.Error * taps.LogRatio.Error) + (checks.LogRatio.Error * checks.LogRatio.Error) + plants);
        return new Estimate(taps.LogRatio.Value - checks.LogRatio.Value, error, double.PositiveInfinity);
    }

    private Evidence Weighed(VerdictOptions options)
    {
        bool matters = Leaves.Before is { } before && before.Value >= options.RateThatMatters && before.Lower(options.Risk) > 0;
        bool counts = Taps is not null && Taps.CountedBefore >= options.MitesLeast;
        bool countsChecks = counts && CheckTaps is not null && CheckTaps.CountedBefore >= options.MitesLeast;
        Estimate? ratio = Leaves.Ratio(options);
        (bool beats, bool asMuch, double? byLeaves) = AgainstCheckLeaves(matters ? ratio : null, options);
        double? byTaps = countsChecks && RestByTaps is { } log ? Math.Exp(log.Value) : null;
        // One day of taps is one day's weather and one day's luck.
        double tapRisk = Taps?.DaysSince == 1 ? options.Risk / 2 : options.Risk;
        bool holds = !(matters && ratio?.Value > 1) && !(counts && Taps!.LogRatio.Value > 0);

        // Mites that run out of food do so sooner on the plant that was worse from the start.
        bool hasFood = !(Leaves.DamageMost >= options.LittleLeftFrom);
        return this with
        {
            LeavesGainMore = Leaves.IsClean && Leaves.Since is { } since && since.Value >= options.RateThatMatters && ((Leaves.SinceLess(options.GrowthThatTells, options) is { } more && more.Lower(options.Risk) > 0) || (matters && ratio is { } up && up.Lower(options.Risk) > options.GrowthThatTells)),
            LeavesGainLess = matters && ratio is { } down && down.Upper(options.Risk) < options.RestIfWorking,
            MoreMites = Taps is not null && Taps.Since >= 1 && Taps.LogRatio.Lower(options.Risk) > Math.Log(options.GrowthThatTells),
            SlowsOnly = !holds && (beats || (countsChecks && RestByTaps is { } slowed && slowed.Value < Math.Log(options.RestIfWorking) && slowed.Upper(tapRisk) < Math.Log(options.RestIfNotWorking))),
            HardlyAnyMites = Taps is not null && Taps.Since < options.HardlyAMite,
            FewerMites = counts && Taps!.LogRatio.Upper(options.Risk) < Math.Log(options.RestIfWorking),
            TapsBeatChecks = countsChecks && holds && (hasFood || (Taps!.DaysSince > 1 && byLeaves is not null)) && !(byLeaves > options.RestIfNotWorking) && RestByTaps is { } rest && rest.Value < Math.Log(options.RestIfWorking) && rest.Upper(tapRisk) < Math.Log(options.RestIfNotWorking),
            TapsAsChecks = countsChecks && !(byLeaves < options.RestIfWorking) && RestByTaps is { } same && same.Value > Math.Log(options.RestIfNotWorking) && same.Lower(tapRisk) > Math.Log(options.RestIfWorking),
            LeavesBeatChecks = beats && holds && hasFood && !(byTaps > options.RestIfNotWorking),
            LeavesAsChecks = asMuch && !(byTaps < options.RestIfWorking),
        };
    }

    // The check plants' change of rate is what the plant would have done untreated; it is compared leaf by leaf with what it did.
    private (bool Beats, bool AsMuch, double? Left) AgainstCheckLeaves(Estimate? ratio, VerdictOptions options)
    {
        if (ratio is not { } own || CheckLeaves.Count == 0)
        {
            return default;
        }

        Estimate before = MeanOf(CheckLeaves.Select(check => check.Before!.Value));
        Estimate since = MeanOf(CheckLeaves.Select(check => check.Since!.Value));
        Estimate[] ratios = [.. CheckLeaves.Select(check => check.Ratio(options)).OfType<Estimate>()];
        if (before.Lower(options.Risk) <= 0 || since.Value <= 0 || ratios.Length == 0)
        {
            return default;
        }

        Estimate growth = MeanOf(ratios);
        double plants = PlantSpread * PlantSpread * (1 + (1.0 / ratios.Length));
        double rest = own.Value / growth.Value;
        double spread = Math.Sqrt(Squared(growth.Error / growth.Value) + plants);
        double times = -Normal.InvCDF(0, 1, options.Risk);
        return (
            rest < options.RestIfWorking && Less(options.RestIfNotWorking, (1 - Math.Exp(-times * spread)) / times).Upper(options.Risk) < 0,
            Leaves.IsClean && rest > options.RestIfNotWorking && Less(options.RestIfWorking, (Math.Exp(times * spread) - 1) / times).Lower(options.Risk) > 0,
            rest);

        // Growth differs by factors, so its error reaches less far down than up.
        Estimate Less(double share, double reach) => own with
        {
            Value = own.Value - (share * growth.Value),
            Error = Math.Sqrt(Squared(own.Error) + Squared(share * growth.Value * reach)),
        };
    }

    internal static Estimate MeanOf(IEnumerable<Estimate> estimates)
    {
        Estimate[] all = [.. estimates];
        return new Estimate(all.Average(e => e.Value), Math.Sqrt(all.Sum(e => Squared(e.Error))) / all.Length, all.Sum(e => e.Freedom));
    }

    private static double Squared(double value) => value * value;
}
