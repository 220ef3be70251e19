using CsCheck;
using LeafScan.Trends.Statistics;

namespace LeafScan.Trends.Tests.Statistics;

/// <summary>Mann-Kendall and Theil-Sen against published examples.</summary>
public sealed class TrendTests
{
    // US EPA QA/G-9S, Data Quality Assessment: Statistical Methods for Practitioners, example on p. 109, as quoted on a vendor's page.
    private static readonly double[] Epa = [10, 10, 10, 5, 10, 20, 18, 17, 15, 24, 15];

    // College of the Holy Cross, notes "Mann-Kendall by hand". Slope and its limits are our own computation.
    private static readonly double[] HolyCross = [12.9, 14.8, 13.2, 15.7, 13.8, 15.6, 12.9, 11.0, 17.3, 15.9, 19.0, 18.3, 20.1, 21.7];

    [Fact]
    public void The_example_of_the_EPA_with_ties_comes_out_as_printed()
    {
        MannKendall trend = MannKendall.Of(Epa)!;

        Assert.Equal(22, trend.S);
        Assert.Equal(155.333333333, trend.VarianceOfS, 1e-6);
        Assert.Equal(1.68494979, trend.Z, 1e-6);
        Assert.Equal(0.091998259, trend.PTwoSided, 1e-6);
        Assert.Equal(0.4, trend.TauA, 1e-12);
        Assert.False(trend.IsExact);
        TheilSen line = TheilSen.Of(Numbered(11), Epa, 0.95)!;
        Assert.Equal(1, line.Slope, 1e-9);
        Assert.Equal(0, line.SlopeInterval!.Value.Low, 1e-9);
        Assert.Equal(2, line.SlopeInterval.Value.High, 1e-9);
    }

    [Fact]
    public void Fourteen_values_with_one_tie_come_out_as_worked_by_hand()
    {
        MannKendall trend = MannKendall.Of(HolyCross)!;

        Assert.Equal(54, trend.S);
        Assert.Equal(332.666666667, trend.VarianceOfS, 1e-6);
        Assert.Equal(2.905836846, trend.Z, 1e-6);
        Assert.Equal(0.001831362, trend.PRising, 1e-8);
        TheilSen line = TheilSen.Of(Numbered(14), HolyCross, 0.95)!;
        Assert.Equal(0.566666667, line.Slope, 1e-8);
        Assert.Equal(0.323129797, line.SlopeInterval!.Value.Low, 1e-6);
        Assert.Equal(0.869783672, line.SlopeInterval.Value.High, 1e-6);
    }

    // US EPA QA/G-9S, small-sample example (data and 0.117 from memory, reproduced by our own enumeration).
    [Fact]
    public void Five_values_get_their_exact_probability()
    {
        MannKendall trend = MannKendall.Of([5, 6, 11, 8, 10])!;

        Assert.Equal(6, trend.S);
        Assert.True(trend.IsExact);
        Assert.Equal(0.116666667, trend.PRising, 1e-8);
        Assert.Equal(1.125, TheilSen.Of(Numbered(5), [5, 6, 11, 8, 10], 0.95)!.Slope, 1e-12);
    }

    // Critical S at 95 % for 4, 5 and 6 values: 6, 8 and 11, on a vendor's help page; probabilities by enumeration.
    [Theory]
    [InlineData(new double[] { 1, 2, 3, 4 }, 6, 0.041666667)]
    [InlineData(new double[] { 1, 2, 3, 5, 4 }, 8, 0.041666667)]
    [InlineData(new double[] { 1, 2, 3, 4, 6, 5 }, 13, 0.008333333)]
    [InlineData(new double[] { 1, 2, 3, 6, 5, 4 }, 9, 0.068055556)]
    [InlineData(new double[] { 1, 2, 4, 3, 6, 5 }, 11, 0.027777778)]
    public void Small_samples_are_exact(double[] values, int s, double rising)
    {
        MannKendall trend = MannKendall.Of(values)!;

        Assert.Equal(s, trend.S);
        Assert.Equal(rising, trend.PRising, 1e-8);
    }

    [Fact]
    public void Three_visits_never_make_a_trend_and_two_say_nothing()
    {
        Assert.True(MannKendall.Of([1, 2, 3])!.PTwoSided > 0.3);
        Assert.Null(MannKendall.Of([1, 2]));
        Assert.Null(TheilSen.Of([0, 7, 14], [1, 2, 3], 0.9)!.SlopeInterval);
        Assert.Null(TheilSen.Of([3, 3], [1, 2], 0.9));
    }

    // Against plain enumeration of all orders, ties included.
    [Fact]
    public void Exact_probabilities_are_those_of_all_orders()
        => Gen.Double[0, 4].Select(value => Math.Floor(value)).Array[3, 6].Sample(
            values =>
            {
                MannKendall trend = MannKendall.Of(values)!;
                List<int> all = [.. Orders(values).Select(order => MannKendall.Of(order)!.S)];
                return Math.Abs(trend.PRising - all.Count(s => s >= trend.S) / (double)all.Count) < 1e-9
                    && Math.Abs(trend.PFalling - all.Count(s => s <= trend.S) / (double)all.Count) < 1e-9;
            },
            iter: 40);

    // 2/n! for values that all differ: the best of all orders and its mirror image.
    [Theory]
    [InlineData(0.1, 4)]
    [InlineData(0.05, 5)]
    [InlineData(0.01, 6)]
    [InlineData(0.4, 3)]
    public void A_level_needs_so_many_values_at_least(double risk, int count)
    {
        Assert.Equal(count, MannKendall.LeastCount(risk));
        Assert.True(MannKendall.Of(Numbered(count))!.PTwoSided <= risk);
        Assert.True(count == 3 || MannKendall.Of(Numbered(count - 1))!.PTwoSided > risk);
    }

    [Fact]
    public void The_smallest_probability_is_that_of_the_best_order_ties_included()
        => Gen.Double[0, 4].Select(value => Math.Floor(value)).Array[3, 8].Sample(
            values => Math.Abs(MannKendall.SmallestPTwoSided(values) - MannKendall.Of([.. values.Order()])!.PTwoSided) < 1e-9, iter: 200);

    [Fact]
    public void Equal_values_have_no_trend()
    {
        MannKendall trend = MannKendall.Of([2, 2, 2, 2, 2])!;

        Assert.Equal((0, 0.0, 1.0), (trend.S, trend.Z, trend.PTwoSided));
        Assert.Equal(1, MannKendall.Of([.. Enumerable.Repeat(2.0, 12)])!.PTwoSided);
    }

    [Fact]
    public void The_slope_goes_by_dates_and_one_bad_visit_hardly_moves_it()
    {
        TheilSen line = TheilSen.Of([0, 1, 10, 20, 30, 40], [5, 5.1, 6, 90, 8, 9], 0.9)!;

        Assert.InRange(line.Slope, 0.1, 0.14);
    }

    private static double[] Numbered(int count) => [.. Enumerable.Range(1, count).Select(number => (double)number)];

    private static IEnumerable<double[]> Orders(double[] values) => values.Length <= 1
        ? [values]
        : values.SelectMany((first, at) => Orders([.. values.Where((_, other) => other != at)]).Select(rest => (double[])[first, .. rest]));
}
