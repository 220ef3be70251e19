using LeafScan.Trends.Statistics;

namespace LeafScan.Trends.Tests.Statistics;

public class DrawingTests
{
    // First words of xoshiro256** from the state 1, 2, 3, 4; published with the generator's ports (value from memory, the
    // first follows by hand: rotl(2 * 5, 7) * 9 = 11520).
    [Fact]
    public void The_generator_gives_its_published_words()
    {
        FastDraw draw = FastDraw.FromWords(1, 2, 3, 4);
        Assert.Equal([11520UL, 0UL, 1509978240UL, 1215971899390074240UL], [draw.Word(), draw.Word(), draw.Word(), draw.Word()]);
    }

    [Fact]
    public void Places_are_drawn_alike_often()
    {
        FastDraw draw = new(7);
        int[] hits = new int[7];
        for (int i = 0; i < 70_000; i++)
        {
            hits[draw.Next(7)]++;
        }

        // Five standard errors of 70,000 draws at one seventh are 463.
        Assert.All(hits, count => Assert.InRange(count, 10_000 - 463, 10_000 + 463));
    }

    [Theory]
    [InlineData(2, 0.05)]
    [InlineData(5, 0.05)]
    [InlineData(400, 0.05)]
    [InlineData(401, 0.1)]
    [InlineData(2000, 0.5)]
    [InlineData(2000, 0.0354)]
    [InlineData(2001, 0)]
    public void Ends_are_the_quantiles_of_the_sorted_numbers(int count, double tail)
    {
        Random random = new(count);
        double[] values = [.. Enumerable.Range(0, count).Select(_ => Math.Round(random.NextDouble(), 2))];
        double[] sorted = [.. values.Order()];
        (double low, double high) = Ends.Of(values, tail);
        Assert.Equal(Sample.Quantile(sorted, tail), low, 12);
        Assert.Equal(Sample.Quantile(sorted, 1 - tail), high, 12);
    }

    // In order of size, which is how they are drawn from. Drawn one by one as Efron's method says, without anything kept: the same seed must give the very same ends, the first time, when the
    // drawing is on hand and when the sample is too large for it to be kept.
    [Theory]
    [InlineData(2)]
    [InlineData(10)]
    [InlineData(79)]
    [InlineData(2100)]
    public void Drawings_that_are_kept_give_the_same_interval_as_drawing_anew(int count)
    {
        double[] first = Values(count, 1), second = Values(count, 2);
        foreach (double[] values in new[] { first, second, first })
        {
            Interval interval = Bootstrap.Mean(values, 0.9, new Random(20260702), 500);
            (double low, double high) = OneByOne(values, new Random(20260702).NextInt64(), 500, interval);
            Assert.Equal((low, high), (interval.Low, interval.High));
        }
    }

    private static double[] Values(int count, int seed)
    {
        Random random = new(seed);
        return [.. Enumerable.Range(0, count).Select(_ => random.NextDouble()).Order()];
    }

    private static (double Low, double High) OneByOne(double[] values, long seed, int resamples, Interval like)
    {
        double mean = values.Sum() / values.Length, stretch = Math.Sqrt(values.Length / (values.Length - 1.0));
        FastDraw draw = new(seed);
        double[] means = new double[resamples];
        for (int round = 0; round < resamples; round++)
        {
            double sum = 0;
            for (int i = 0; i < values.Length; i++)
            {
                sum += values[draw.Next(values.Length)];
            }

            means[round] = mean + (stretch * ((sum / values.Length) - mean));
        }

        double tail = MathNet.Numerics.Distributions.Normal.CDF(0, 1, MathNet.Numerics.Distributions.StudentT.InvCDF(0, 1, values.Length - 1, (1 - like.Level) / 2));
        return Ends.Of(means, tail);
    }
}
