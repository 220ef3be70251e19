using LeafScan.Trends.NextSteps;
using LeafScan.Trends.Sampling;
using LeafScan.Trends.Thresholds;

namespace LeafScan.Trends.Tests.NextSteps;

public sealed class PlanTests
{
    // Counts by chance have variance = mean, so a standard error of a quarter of the mean takes 1/D² = 16 mites in all, whatever the number of taps.
    [Fact]
    public void Mites_that_lie_as_by_chance_take_sixteen_in_all()
        => Assert.All(TapPlan.Of(null, null).Stops, stop => Assert.Equal(16, stop.Mites));

    [Fact]
    public void The_number_of_branches_gives_the_precision_asked_for()
    {
        TapPlan few = TapPlan.Of(new TapSeen(new DateOnly(2026, 6, 1), [2, 2, 2]), null);
        Assert.Equal(8, few.Branches); // 1/(2 · 0.0625) = 8
        Assert.Equal(TapPlan.BranchesLeast, TapPlan.Of(new TapSeen(new DateOnly(2026, 6, 1), [40, 38, 42]), null).Branches);
        Assert.Equal(TapPlan.BranchesMost, TapPlan.Of(new TapSeen(new DateOnly(2026, 6, 1), [0, 0, 1]), null).Branches);
        Assert.Equal(TapPlan.BranchesLeast, TapPlan.Of(null, null).Branches);
    }

    // Raworth 1986 (strawberry leaflets): with D = 0.25 stop after 20 units at 1429 mites, and 52 units at a mean of 5.
    [Fact]
    public void Own_clumping_goes_into_plan_and_stop_line()
    {
        TapPlan plan = TapPlan.Of(new TapSeen(new DateOnly(2026, 6, 1), [5, 5, 5]), TaylorLaw.StrawberryLeaflets);
        Assert.Equal(1429, plan.Stops.Single(stop => stop.Taps == 20).Mites, 1.0);
        Assert.Equal(TapPlan.BranchesMost, plan.Branches);
        Assert.Contains("52", plan.Because, StringComparison.Ordinal);
    }

    // Almond, Zalom et al. 1984, risks 0.1: slope 0.3216, h 2.1792; at 20 leaves the lines lie at 4.25 and 8.61 (Binns, Nyrop and van der Werf 2000).
    [Fact]
    public void The_look_at_leaves_stops_at_the_almond_lines_until_others_are_set()
    {
        LeafPlan plan = LeafPlan.Of(ThresholdTable.Plain, "Rosa", null)!;
        StopLine at20 = plan.Lines.Single(line => line.Count == 20);
        Assert.Equal((4, 9), (at20.BelowAt, at20.AboveAt));
        ThresholdTable crossed = new([new(ThresholdMeasure.LeavesWithMitesLow, 0.5, null, null, "", "test", true)]);
        Assert.Null(LeafPlan.Of(crossed, "Rosa", null));
    }
}
