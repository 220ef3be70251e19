using CsCheck;
using LeafScan.Trends.Statistics;
using MathNet.Numerics.Distributions;

namespace LeafScan.Trends.Tests;

public sealed class IntervalTests
{
    // First four: Newcombe 1998, Statistics in Medicine 17:857-872, Table I, method 3. The last two are seen in public
    // test suites of statistics libraries.
    [Theory]
    [InlineData(81, 263, 0.2553, 0.3662)]
    [InlineData(15, 148, 0.0624, 0.1605)]
    [InlineData(0, 20, 0.0, 0.1611)]
    [InlineData(1, 29, 0.0061, 0.1718)]
    [InlineData(0, 10, 0.0, 0.2775)]
    [InlineData(10, 10, 0.7225, 1.0)]
    public void Wilson_intervals_are_those_of_Newcombe(int hits, int count, double low, double high)
    {
        Interval interval = WilsonInterval.Of(hits, count, 0.95);

        Assert.Equal(low, interval.Low, 5e-5);
        Assert.Equal(high, interval.High, 5e-5);
    }

    [Fact]
    public void Wilson_intervals_hold_the_share_stay_in_bounds_and_turn_round_with_it()
        => Gen.Select(Gen.Int[1, 500], Gen.Int[0, 500], Gen.Double[0.5, 0.99]).Where((count, hits, _) => hits <= count).Sample((count, hits, level) =>
        {
            Interval interval = WilsonInterval.Of(hits, count, level);
            Interval mirrored = WilsonInterval.Of(count - hits, count, level);
            return interval.Holds((double)hits / count) && interval.Low >= 0 && interval.High <= 1
                && Math.Abs(interval.Low + mirrored.High - 1) < 1e-12;
        });

    [Theory]
    [InlineData(-1, 10)]
    [InlineData(11, 10)]
    [InlineData(0, 0)]
    public void Counts_that_cannot_be_are_refused(int hits, int count)
        => Assert.Throws<ArgumentOutOfRangeException>(() => WilsonInterval.Of(hits, count, 0.9));

    // Exact by enumerating all 3125 resamples (our own computation): mean 8, standard error 1.0198039027, 2.5 % and 97.5 %
    // percentiles 6 and 10. Means come in steps of 0.2, and drawing may miss the percentile by one step.
    [Fact]
    public void The_percentile_interval_comes_near_the_one_of_all_resamples()
    {
        var means = new List<double>();
        Interval interval = Bootstrap.Percentile(
            [5, 6, 11, 8, 10],
            resample =>
            {
                means.Add(resample.Average());
                return means[^1];
            },
            0.95,
            new Random(7),
            20_000);

        double mean = means.Average();
        Assert.Equal(8, mean, 0.03);
        Assert.Equal(1.0198039027, Math.Sqrt(means.Average(value => (value - mean) * (value - mean))), 0.02);
        Assert.Equal(6, interval.Low, 0.2001);
        Assert.Equal(10, interval.High, 0.2001);
    }

    // Photos of a walk come into a record in the order in which they were measured, which no two runs share.
    [Fact]
    public void The_same_values_in_another_order_give_the_same_interval()
    {
        double[] values = [0.31, 0.02, 0.18, 0.4, 0.09], other = [0.4, 0.18, 0.09, 0.31, 0.02], later = [0.2, 0.5, 0.1];
        Assert.Equal(Bootstrap.Mean(values, 0.9, new Random(3)), Bootstrap.Mean(other, 0.9, new Random(3)));
        Assert.Equal(
            Bootstrap.MeanDifference(values, later, 0.9, new Random(3)),
            Bootstrap.MeanDifference(other, [.. later.Reverse()], 0.9, new Random(3)));
    }

    [Fact]
    public void The_same_seed_gives_the_same_interval()
        => Assert.Equal(
            Bootstrap.Mean([0.1, 0.2, 0.4], 0.9, new Random(3)),
            Bootstrap.Mean([0.1, 0.2, 0.4], 0.9, new Random(3)));

    // Independent of our code: by definition nine in ten 90 % intervals hold the true mean. Normal samples from the
    // library's own generator; three standard errors of 6000 trials are 0.012.
    // Four values can be drawn again in 35 ways only: there it is 87 in 100 whatever the generator.
    [Theory]
    [InlineData(4, 0.86)]
    [InlineData(8, 0.875)]
    [InlineData(20, 0.875)]
    public void Nine_in_ten_widened_intervals_hold_the_true_mean(int count, double least)
    {
        var random = new Random(20260703);
        int widened = 0, plain = 0;
        const int Trials = 6000;
        for (int trial = 0; trial < Trials; trial++)
        {
            double[] sample = new double[count];
            Normal.Samples(random, sample, 10, 3);
            widened += Bootstrap.Mean(sample, 0.9, random, 400).Holds(10) ? 1 : 0;
            plain += Bootstrap.Percentile(sample, values => values.Average(), 0.9, random, 400).Holds(10) ? 1 : 0;
        }

        Assert.InRange(widened / (double)Trials, least, 0.93);
        Assert.True(plain < widened, $"{plain} plain intervals hold it, {widened} widened ones.");
    }

    // For a difference of normal samples drawing again must come near to Welch's interval, made in another way.
    [Fact]
    public void Drawing_again_and_Welch_give_nearly_the_same_interval_of_a_difference()
    {
        var random = new Random(11);
        double[] earlier = new double[12], later = new double[9];
        Normal.Samples(random, earlier, 0.10, 0.03);
        Normal.Samples(random, later, 0.16, 0.06);

        Interval drawn = Bootstrap.MeanDifference(earlier, later, 0.9, random, 20_000);
        Interval welch = WelchDifference.Of(earlier, later, 0.9).Interval;

        Assert.Equal(welch.Low, drawn.Low, 0.12 * welch.Width);
        Assert.Equal(welch.High, drawn.High, 0.12 * welch.Width);
    }

    // Data: Student 1908, Biometrika 6:1-25 (hours of extra sleep). R's help page of its t test prints for the data set
    // "sleep" t = -1.8608, df = 17.776, p = 0.07939, interval -3.3654832 to 0.2054832 (from memory; scipy 1.10.1 agrees). There the
    // first group less the second, here the other way round.
    [Fact]
    public void Welch_on_Students_sleep_data_is_as_R_prints_it()
    {
        double[] first = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0];
        double[] second = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];

        WelchDifference welch = WelchDifference.Of(first, second, 0.95);

        Assert.Equal(1.8608, welch.T, 5e-5);
        Assert.Equal(17.776, welch.DegreesOfFreedom, 5e-4);
        Assert.Equal(0.07939, welch.PTwoSided, 5e-6);
        Assert.Equal(-0.2054832, welch.Interval.Low, 5e-8);
        Assert.Equal(3.3654832, welch.Interval.High, 5e-8);
    }

    // Same data and source: scipy 1.10.1, t interval of the first group's mean at 95 %: -0.529780 to 2.029780.
    [Fact]
    public void Students_interval_of_a_mean_is_as_an_independent_library_computes_it()
    {
        Interval interval = StudentMean.Of([0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0], 0.95);

        Assert.Equal(-0.529780, interval.Low, 5e-7);
        Assert.Equal(2.029780, interval.High, 5e-7);
    }

    [Fact]
    public void Samples_that_do_not_vary_give_an_interval_of_no_width()
    {
        Assert.Equal(0, Bootstrap.Mean([0.2, 0.2, 0.2], 0.9, new Random(1)).Width, 1e-12);
        Assert.Equal(0.1, WelchDifference.Of([0.2, 0.2], [0.3, 0.3], 0.9).Interval.Low, 1e-12);
        Assert.Equal(1, WelchDifference.Of([0.25, 0.25], [0.25, 0.25], 0.9).PTwoSided);
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(1.0)]
    [InlineData(double.NaN)]
    public void A_level_outside_nought_to_one_is_refused(double level)
        => Assert.Throws<ArgumentOutOfRangeException>(() => Bootstrap.Mean([1, 2], level, new Random(1)));
}
