using LeafScan.Trends.Sampling;
using LeafScan.Trends.Thresholds;

namespace LeafScan.Trends.NextSteps;

/// <summary>
/// A leaf-by-leaf look with a lens that stops early: few leaves with mites, or many? It decides and does not estimate; for a mean
/// there is <see cref="TapPlan"/>.
/// </summary>
/// <param name="Plan">Wald's test.</param>
/// <param name="Low">Threshold of its low end.</param>
/// <param name="High">Threshold of its high end.</param>
public sealed record LeafPlan(WaldPlan Plan, Threshold Low, Threshold High)
{
    /// <summary>Leaves after which lines are shown.</summary>
    private static readonly int[] LinesAt = [10, 15, 20, 25, 30, 40, 50, 60];

    /// <summary>The stop lines, at the numbers of leaves within the plan.</summary>
    public IReadOnlyList<StopLine> Lines => [.. LinesAt.Where(count => count >= Plan.LeavesLeast && count <= Plan.LeavesMost).Select(Plan.At)];

    /// <summary>Makes a plan for a plant.</summary>
    /// <param name="thresholds">Thresholds in force.</param>
    /// <param name="species">Botanical name; null when not known.</param>
    /// <param name="client">Client; null for none.</param>
    /// <returns>Null when the low end does not lie below the high one.</returns>
    public static LeafPlan? Of(ThresholdTable thresholds, string? species, string? client)
    {
        Threshold? low = thresholds.For(ThresholdMeasure.LeavesWithMitesLow, species, client);
        Threshold? high = thresholds.For(ThresholdMeasure.LeavesWithMitesHigh, species, client);
        return low is null || high is null || low.Value >= high.Value ? null : new LeafPlan(new WaldPlan { Low = low.Value, High = high.Value }.Checked(), low, high);
    }
}
