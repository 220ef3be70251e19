using LeafScan.Leaves;
using LeafScan.Trends.NextSteps;

namespace LeafScan.Cli.Screen;

/// <summary>Advice as documents.</summary>
internal static class NextDocument
{
    /// <summary>Of one plant; one of the two plans.</summary>
    public static object Of(PlantAdvice advice, TapPlan? taps, LeafPlan? look) => new
    {
        schema = "leafscan.next/1",
        tool = ToolVersion.Current,
        code = advice.Plant.Code,
        place = advice.Plant.PlaceName,
        client = advice.Client,
        species = advice.Plant.Species,
        date = Words.Day(advice.Situation.Today),
        lookAgainOn = Words.Day(advice.Advice.RecheckOn),
        rest = advice.Advice.IsRest,
        steps = Lines(advice.Advice.Lines),
        cautions = Lines(advice.Advice.Cautions),
        threshold = advice.Situation.MitesPerTap is { } threshold ? ThresholdDocument.Entry(threshold) : null,
        taps = taps is null ? null : new
        {
            branches = taps.Branches,
            because = taps.Because,
            stopWhenMitesReach = taps.Stops.Select(stop => new { taps = stop.Taps, mites = stop.Mites }),
            stopBecause = taps.StopsBecause,
        },
        leaves = look is null ? null : new
        {
            low = ThresholdDocument.Entry(look.Low),
            high = ThresholdDocument.Entry(look.High),
            riskOfFalseAlarm = look.Plan.RiskOfFalseAlarm,
            riskOfMissing = look.Plan.RiskOfMissing,
            leavesMost = look.Plan.LeavesMost,
            lines = look.Lines.Select(line => new { leaves = line.Count, fewAt = line.BelowAt, manyAt = line.AboveAt }),
        },
        situation = new
        {
            meanC = FigureDocument.Round(advice.Situation.MeanC),
            highestC = FigureDocument.Round(advice.Situation.HighestC),
            lastLeavesOn = advice.Situation.LastLeavesOn is { } day ? Words.Day(day) : null,
            damage = FigureDocument.Round(advice.Situation.Damage),
            damageRising = advice.Situation.IsDamageRising,
            newGrowthClean = advice.Situation.IsNewGrowthClean,
            tappedOn = advice.Situation.Tap is { } tap ? Words.Day(tap.Day) : null,
            taps = advice.Situation.Tap?.Counts,
        },
    };

    /// <summary>Of many plants.</summary>
    public static object Of(IReadOnlyList<PlantAdvice> all, DateOnly today) => new
    {
        schema = "leafscan.next-list/1",
        tool = ToolVersion.Current,
        date = Words.Day(today),
        plants = all.Select(advice => new
        {
            code = advice.Plant.Code,
            place = advice.Plant.PlaceName,
            client = advice.Client,
            species = advice.Plant.Species,
            lookAgainOn = Words.Day(advice.Advice.RecheckOn),
            rest = advice.Advice.IsRest,
            steps = Lines(advice.Advice.Lines),
            cautions = Lines(advice.Advice.Cautions),
        }),
    };

    private static IEnumerable<object> Lines(IEnumerable<AdviceLine> lines) => lines.Select(line => new { words = line.Words, reason = line.Reason, source = line.Source });
}
