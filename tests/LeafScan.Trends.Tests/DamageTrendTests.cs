using LeafScan.Records;
using LeafScan.Trends.Statistics;

namespace LeafScan.Trends.Tests;

/// <summary>The direction of a plant's damage, one value a week, against the published examples that the tests of the formulas use too.</summary>
public sealed class DamageTrendTests
{
    // US EPA QA/G-9S, example on p. 109 (see TrendTests): S = 22, two-sided 0.092, slope 1 from one sample to the next.
    [Fact]
    public void The_example_of_the_EPA_goes_no_sure_way()
    {
        DamageTrend trend = Weekly(10, 10, 10, 5, 10, 20, 18, 17, 15, 24, 15)!;

        Assert.Equal(TrendDirection.NoneSure, trend.Direction);
        Assert.Equal(0.091998259, trend.Chance, 1e-6);
        Assert.Equal(0.01, trend.SlopeAWeek, 1e-9);
        Assert.False(trend.IsChanceExact || trend.IsTooAlike);
        Assert.StartsWith("Over 11 visits from 2026-06-03 to 2026-08-12 damage went no sure way: 1.0 points a week (90 % range ", trend.Words, StringComparison.Ordinal);
        Assert.Contains("about 9 in 100 series", trend.Words, StringComparison.Ordinal);
    }

    // College of the Holy Cross, notes "Mann-Kendall by hand" (see TrendTests): one-sided 0.001831362, slope 0.566666667.
    [Fact]
    public void Fourteen_values_worked_by_hand_rise()
    {
        DamageTrend trend = Weekly(12.9, 14.8, 13.2, 15.7, 13.8, 15.6, 12.9, 11.0, 17.3, 15.9, 19.0, 18.3, 20.1, 21.7)!;

        Assert.Equal(TrendDirection.Rising, trend.Direction);
        Assert.Equal(2 * 0.001831362, trend.Chance, 1e-8);
        Assert.Equal(0.00566666667, trend.SlopeAWeek, 1e-8);
        Assert.True(trend.SlopeInterval!.Value.Low > 0.00323 && trend.SlopeInterval.Value.High < 0.0087, "The 90 % interval lies in the 95 % one.");
        Assert.Contains("damage rose, by about 0.6 points a week (90 % range", trend.Words, StringComparison.Ordinal);
        Assert.Contains("about 4 in 1,000 series", trend.Words, StringComparison.Ordinal);
    }

    [Fact]
    public void Five_visits_are_the_fewest_and_three_never_make_a_trend()
    {
        Assert.Equal(5, DamageTrend.VisitsLeast);
        Assert.Null(Weekly(1, 5, 20));
        Assert.Null(Weekly(1, 5, 20, 40));
        DamageTrend trend = Weekly(1, 5, 20, 40, 60)!;
        Assert.Equal((TrendDirection.Rising, true), (trend.Direction, trend.IsChanceExact));
        Assert.Equal(2.0 / 120, trend.Chance, 1e-12);
        Assert.NotNull(trend.SlopeInterval);
        Assert.Contains("5 visits", DamageTrend.TooFew, StringComparison.Ordinal);
    }

    [Fact]
    public void A_fall_is_never_called_the_care_working()
    {
        DamageTrend trend = Weekly(40, 31, 20, 12, 4)!;

        Assert.Equal(TrendDirection.Falling, trend.Direction);
        Assert.True(trend.SlopeAWeek < 0);
        Assert.Contains("mean damage fell, by about 9.0 points a week", trend.Words, StringComparison.Ordinal);
        Assert.Contains("does not prove that care works", trend.Words, StringComparison.Ordinal);
        Assert.Contains("damaged leaves drop", trend.Words, StringComparison.Ordinal);
    }

    [Fact]
    public void Readings_that_are_all_alike_show_no_direction()
    {
        DamageTrend trend = Weekly(0, 0, 0, 0, 0, 3)!;

        Assert.Equal((TrendDirection.NoneSure, true), (trend.Direction, trend.IsTooAlike));
        Assert.Contains("alike", trend.Words, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_walks_of_a_day_are_one_visit_new_growth_is_left_out_and_so_is_another_season()
    {
        List<LeafOnRecord> leaves = [.. Some.Leaves(Some.June, 0.01), .. Some.Leaves(Some.June.AddDays(7), 0.02), .. Some.Leaves(Some.June.AddDays(14), 0.03), .. Some.Leaves(Some.June.AddDays(21), 0.04)];
        leaves.AddRange(Some.Leaves(Some.June.AddDays(21), 0.06).Select(leaf => leaf with { WalkId = 9 }));
        leaves.AddRange(Some.Leaves(Some.June.AddDays(28), 0.9).Select(leaf => leaf with { Age = LeafGrowth.New }));
        leaves.AddRange(Some.Leaves(Some.June.AddDays(-300), 0.5));
        Assert.Null(DamageTrend.Of(leaves));

        leaves.AddRange(Some.Leaves(Some.June.AddDays(28), 0.07));
        DamageTrend trend = DamageTrend.Of(leaves)!;
        Assert.Equal((5, Some.June), (trend.VisitCount, trend.First));
        Assert.Equal(TrendDirection.Rising, trend.Direction);
        leaves.Reverse();
        Assert.Equal(trend, DamageTrend.Of(leaves));
    }

    [Fact]
    public void A_series_of_the_same_leaves_in_another_order_is_the_same()
    {
        LeafOnRecord[] leaves = [.. Some.Leaves(Some.June, 0.31, 0.02, 0.18, 0.4, 0.09)];
        Interval one = SteadyChance.SeriesOf(leaves)[0].Leaves.DamageInterval!.Value, other = SteadyChance.SeriesOf(leaves.Reverse())[0].Leaves.DamageInterval!.Value;
        Assert.Equal((one.Low, one.High), (other.Low, other.High));
    }

    private static DamageTrend? Weekly(params double[] percents)
        => DamageTrend.Of(percents.SelectMany((percent, week) => Some.Leaves(Some.June.AddDays(7 * week), percent / 100)));
}
