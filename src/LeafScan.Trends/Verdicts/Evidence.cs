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

    /// <summary>Against check plants the mites are clearly fewer.</summary>
    public bool TapsBeatChecks { get; private init; }

    /// <summary>Against check plants the mites are as many.</summary>
    public bool TapsAsChecks { get; private init; }

    /// <summary>Against check plants the leaves gain clearly less.</summary>
    public bool LeavesBeatChecks { get; private init; }

    /// <summary>Against check plants the leaves gain as much.</summary>
    public bool LeavesAsChecks { get; private init; }

    /// <summary>Gathers the evidence.</summary>
    public static Evidence Of(PlantHistory plant, IReadOnlyList<HistoryVisit> visits, CareWindow window, VerdictOptions options)
    {
        SameLeaves leaves = SameLeaves.Of(visits, window, options);
        TapChange? taps = TapChange.Of([plant.Taps], window, options);
        TapChange? checkTaps = TapChange.Of([.. plant.CheckPlants.Select(check => check.Taps)], window, options);
        SameLeaves[] checks = [.. plant.CheckPlants.Select(check => SameLeaves.Of(Visits.ByDay(check.Visits), window, options)).Where(check => check.Before is not null && check.Since is not null)];
        Evidence evidence = new()
        {
            Leaves = leaves,
            Taps = taps,
            CheckTaps = checkTaps,
            RestByTaps = RestOf(taps, checkTaps, plant.CheckPlants.Count(check => check.Taps.Count > 0), options),
            CheckLeaves = checks,
        };
        return evidence.Weighed(options);
    }

    private static Estimate? RestOf(TapChange? taps, TapChange? checks, int checkCount, VerdictOptions options)
    {
        if (taps is null || checks is null)
        {
            return null;
        }

        // One plant differs from the next even when both are treated alike.
        double plants = options.PlantSpread * options.PlantSpread * (1 + (1.0 / Math.Max(1, checkCount)));
        double error = Math.Sqrt((taps.LogRatio.Error * taps.LogRatio.Error) + (checks.LogRatio.Error * checks.LogRatio.Error) + plants);
        return new Estimate(taps.LogRatio.Value - checks.LogRatio.Value, error, double.PositiveInfinity);
    }

    private Evidence Weighed(VerdictOptions options)
    {
        bool matters = Leaves.Before is { } before && before.Value >= options.RateThatMatters && before.Lower(options.Risk) > 0;
        bool counts = Taps is not null && Taps.CountedBefore >= options.MitesLeast;
        bool countsChecks = counts && CheckTaps is not null && CheckTaps.CountedBefore >= options.MitesLeast;
        (bool beats, bool asMuch) = AgainstCheckLeaves(matters, options);
        return this with
        {
            LeavesGainMore = Leaves.IsClean && Leaves.Since is { } since && since.Value >= options.RateThatMatters && Leaves.SinceLess(1, options) is { } more && more.Lower(options.Risk) > 0,
            LeavesGainLess = matters && Leaves.SinceLess(options.RestIfWorking, options) is { } less && less.Upper(options.Risk) < 0,
            MoreMites = Taps is not null && Taps.Since >= 1 && Taps.LogRatio.Lower(options.Risk) > Math.Log(1.5),
            FewerMites = counts && Taps!.LogRatio.Upper(options.Risk) < Math.Log(options.RestIfWorking),
            TapsBeatChecks = countsChecks && RestByTaps is { } rest && rest.Value < Math.Log(options.RestIfWorking) && rest.Upper(options.Risk) < Math.Log(options.RestIfNotWorking),
            TapsAsChecks = countsChecks && RestByTaps is { } same && same.Value > Math.Log(options.RestIfNotWorking) && same.Lower(options.Risk) > Math.Log(options.RestIfWorking),
            LeavesBeatChecks = beats,
            LeavesAsChecks = asMuch,
        };
    }

    // The check plants' change of rate is what the plant would have done untreated; it is compared leaf by leaf with what it did.
    private (bool Beats, bool AsMuch) AgainstCheckLeaves(bool matters, VerdictOptions options)
    {
        if (!matters || CheckLeaves.Count == 0 || Leaves.Since is null)
        {
            return default;
        }

        Estimate before = MeanOf(CheckLeaves.Select(check => check.Before!.Value));
        Estimate since = MeanOf(CheckLeaves.Select(check => check.Since!.Value));
        if (before.Lower(options.Risk) <= 0 || since.Value <= 0)
        {
            return default;
        }

        double growth = since.Value / before.Value;
        double plants = options.PlantSpread * options.PlantSpread * (1 + (1.0 / CheckLeaves.Count));
        double relative = Squared(before.Error / before.Value) + Squared(since.Error / since.Value) + plants;
        Estimate? Less(double rest)
        {
            if (Leaves.SinceLess(rest * growth, options) is not { } own)
            {
                return null;
            }

            double expected = rest * growth * Leaves.Before!.Value.Value;
            return own with { Error = Math.Sqrt(Squared(own.Error) + (Squared(expected) * relative)) };
        }

        double ratio = Leaves.Since.Value.Value / (growth * Leaves.Before!.Value.Value);
        bool beats = ratio < options.RestIfWorking && Less(options.RestIfNotWorking) is { } less && less.Upper(options.Risk) < 0;
        bool equals = Leaves.IsClean && ratio > options.RestIfNotWorking && Less(options.RestIfWorking) is { } more && more.Lower(options.Risk) > 0;
        return (beats, equals);
    }

    internal static Estimate MeanOf(IEnumerable<Estimate> estimates)
    {
        Estimate[] all = [.. estimates];
        return new Estimate(all.Average(e => e.Value), Math.Sqrt(all.Sum(e => Squared(e.Error))) / all.Length, all.Sum(e => e.Freedom));
    }

    private static double Squared(double value) => value * value;
}
