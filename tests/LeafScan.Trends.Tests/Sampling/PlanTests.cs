using CsCheck;
using LeafScan.Trends.Sampling;
using LeafScan.Trends.Statistics;

namespace LeafScan.Trends.Tests.Sampling;

public sealed class PlanTests
{
    // Wald 1947; shares of the first row after the almond thresholds of Zalom et al. 1984, Hilgardia 52(7):14-24; computed.
    [Theory]
    [InlineData(0.22, 0.436, 0.321585187, 2.179236365, 4.252467, 8.61094, 7)]
    [InlineData(0.1, 0.3, 0.186168942, 1.627662117, 2.095717, 5.351041, 9)]
    public void Walds_lines(double low, double high, double slope, double apart, double belowAt20, double aboveAt20, int fewestClean)
    {
        WaldPlan plan = new WaldPlan { Low = low, High = high, LeavesLeast = 1 }.Checked();

        Assert.Equal(slope, plan.Slope, 1e-6);
        Assert.Equal(apart, plan.BelowBy, 1e-6);
        Assert.Equal(apart, plan.AboveBy, 1e-6);
        Assert.Equal(belowAt20, plan.LinesAt(20).Below, 1e-5);
        Assert.Equal(aboveAt20, plan.LinesAt(20).Above, 1e-5);
        Assert.Equal(fewestClean, plan.FewestCleanLeaves);
        Assert.Equal(StopWord.GoOn, plan.Judge(0, fewestClean - 1));
        Assert.Equal(StopWord.Below, plan.Judge(0, fewestClean));
        Assert.Equal(new StopLine(20, (int)Math.Floor(belowAt20), (int)Math.Ceiling(aboveAt20)), plan.At(20));
    }

    [Fact]
    public void A_plan_goes_on_to_its_fewest_leaves_and_ends_at_its_most()
    {
        WaldPlan plan = new() { Low = 0.1, High = 0.3, LeavesLeast = 10, LeavesMost = 40 };

        Assert.Equal(StopWord.GoOn, plan.Judge(9, 9));
        Assert.Equal(StopWord.Above, plan.Judge(9, 10));
        Assert.Equal(StopWord.Undecided, plan.Judge(8, 40));
    }

    // A test by lot: at the two shares the plan errs no more often than its risks allow (Wald's bounds), here with room for chance.
    [Theory]
    [InlineData(0.1, StopWord.Above)]
    [InlineData(0.3, StopWord.Below)]
    public void A_plan_errs_no_more_than_its_risks(double truth, StopWord wrong)
    {
        WaldPlan plan = new() { Low = 0.1, High = 0.3, LeavesLeast = 1, LeavesMost = 10_000 };
        var random = new Random(5);
        int errors = 0;
        for (int trial = 0; trial < 2000; trial++)
        {
            int infested = 0;
            StopWord word = StopWord.GoOn;
            for (int count = 1; word == StopWord.GoOn; count++)
            {
                infested += random.NextDouble() < truth ? 1 : 0;
                word = plan.Judge(infested, count);
            }

            errors += word == wrong ? 1 : 0;
        }

        Assert.InRange(errors / 2000.0, 0.02, 0.115);
    }

    [Theory]
    [InlineData(0.3, 0.3, 0.1)]
    [InlineData(0, 0.3, 0.1)]
    [InlineData(0.1, 0.3, 0.5)]
    public void Plans_that_cannot_be_are_refused(double low, double high, double risk)
        => Assert.Throws<ArgumentException>(() => new WaldPlan { Low = low, High = high, RiskOfMissing = risk }.Checked());

    // n = z² p(1-p)/d².
    [Theory]
    [InlineData(0.22, 65.921856)]
    [InlineData(0.436, 94.466481)]
    public void Leaves_for_a_share(double share, double leaves)
    {
        Assert.Equal(leaves, SampleSizes.ForShareAt(share, 0.1, 1.96), 1e-5);
        Assert.Equal(leaves, SampleSizes.ForShare(share, 0.1, 0.95), 5e-3);
    }

    [Fact]
    public void Leaves_for_a_mean_agree_with_Taylors_law()
        => Assert.Equal(52.10136113, SampleSizes.ForMean(5, TaylorLaw.StrawberryLeaflets.Variance(5), 0.25), 1e-6);

    // Newcombe 1998, Table I, method 3: 0 of 20 gives up to 0.1611.
    [Fact]
    public void None_of_twenty_still_allows_a_sixth()
    {
        Assert.Equal(0.1611, NoneFound.UpperLimit(20, 0.95), 5e-5);
        Assert.Equal(20, NoneFound.UnitsToRuleOut(0.1612, 0.95));
    }

    [Fact]
    public void The_fewest_leaves_that_rule_a_share_out_are_the_fewest()
        => Gen.Select(Gen.Double[0.01, 0.9], Gen.Double[0.6, 0.99]).Sample((share, level) =>
        {
            int units = NoneFound.UnitsToRuleOut(share, level);
            return NoneFound.UpperLimit(units, level) <= share + 1e-6 && (units == 1 || NoneFound.UpperLimit(units - 1, level) > share - 1e-6);
        });

    [Theory]
    [InlineData(0, 40, SideWord.Below)]
    [InlineData(20, 40, SideWord.Above)]
    [InlineData(8, 40, SideWord.CannotTell)]
    public void A_fixed_sample_beside_a_threshold(int infested, int count, SideWord side)
        => Assert.Equal(side, PresenceAbsence.Of(infested, count, 0.22, 0.9).Side);

    // Garwood 1936, Biometrika 28:437-442, 95 %: 0 gives 0 to 3.689, 5 gives 1.623 to 11.668, 10 gives 4.795 to 18.390 (values from memory).
    [Theory]
    [InlineData(0, 0, 3.689)]
    [InlineData(5, 1.623, 11.668)]
    [InlineData(10, 4.795, 18.390)]
    public void Poisson_intervals_are_Garwoods(int total, double low, double high)
    {
        Interval interval = CountMean.Poisson(total, 1, 0.95);

        Assert.Equal(low, interval.Low, 1e-3);
        Assert.Equal(high, interval.High, 1e-3);
        Assert.Equal(high / 4, CountMean.Poisson(total, 4, 0.95).High, 1e-3);
    }

    [Fact]
    public void Clumped_taps_get_a_wider_interval_than_even_ones()
    {
        CountMean even = CountMean.Of([9, 11, 10, 10, 10], 0.9);
        CountMean clumped = CountMean.Of([0, 45, 1, 2, 2], 0.9);

        Assert.Null(even.K);
        Assert.Equal(even.Mean, clumped.Mean);
        Assert.True(clumped.K < 1);
        Assert.True(clumped.Interval.Width > 3 * even.Interval.Width);
    }

    // Negative binomial counts drawn with a known mean and clumping; the share of intervals that hold the mean is measured.
    [Theory]
    [InlineData(5, 1000.0)]
    [InlineData(5, 2.0)]
    [InlineData(10, 2.0)]
    public void Intervals_of_a_mean_hold_it_about_as_often_as_they_say(int taps, double k)
    {
        var random = new Random(11);
        int held = 0;
        for (int trial = 0; trial < 600; trial++)
        {
            int[] counts = [.. Enumerable.Range(0, taps).Select(_ => MathNet.Numerics.Distributions.Poisson.Sample(random, MathNet.Numerics.Distributions.Gamma.Sample(random, k, k / 8)))];
            held += CountMean.Of(counts, 0.9).Interval.Holds(8) ? 1 : 0;
        }

        Assert.InRange(held / 600.0, 0.82, 0.97);
    }

    // Three branches over each sheet: what is sought is still the mean of a branch, and its interval still holds it.
    [Theory]
    [InlineData(1000.0)]
    [InlineData(2.0)]
    public void Counts_of_several_branches_together_are_reckoned_a_branch(double k)
    {
        var random = new Random(12);
        int[] units = [3, 1, 2, 3, 1, 3];
        int held = 0;
        for (int trial = 0; trial < 600; trial++)
        {
            int[] counts = [.. units.Select(unit => Enumerable.Range(0, unit)
                .Sum(_ => MathNet.Numerics.Distributions.Poisson.Sample(random, MathNet.Numerics.Distributions.Gamma.Sample(random, k, k / 8))))];
            CountMean mean = CountMean.Of(counts, units, 0.9);
            Assert.Equal((13, 6, (double)counts.Sum() / 13), (mean.UnitCount, mean.SampleCount, mean.Mean));
            held += mean.Interval.Holds(8) ? 1 : 0;
        }

        Assert.InRange(held / 600.0, 0.82, 0.97);
        Assert.Equivalent(CountMean.Of([0, 45, 1, 2, 2], 0.9), CountMean.Of([0, 45, 1, 2, 2], [1, 1, 1, 1, 1], 0.9));
        Assert.True(CountMean.Of([12], [3], 0.9).IsSingle);
        Assert.Throws<ArgumentOutOfRangeException>(() => CountMean.Of([1, 2], [1, 0], 0.9));
    }

    [Fact]
    public void No_mites_in_three_taps_still_allow_one_a_tap()
    {
        CountMean none = CountMean.Of([0, 0, 0], 0.95);

        Assert.Equal(0, none.Mean);
        Assert.Equal(3.689 / 3, none.Interval.High, 1e-3);
        Assert.True(CountMean.Of([4], 0.9).IsSingle);
    }
}
