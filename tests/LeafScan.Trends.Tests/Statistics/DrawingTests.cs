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
        FastDraw draw = new(new Random(7));
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
    public void Ends_are_the_quantiles_of_the_sorted_numbers(int count, double tail)
    {
        Random random = new(count);
        double[] values = [.. Enumerable.Range(0, count).Select(_ => Math.Round(random.NextDouble(), 2))];
        double[] sorted = [.. values.Order()];
        (double low, double high) = Ends.Of(values, tail);
        Assert.Equal(Sample.Quantile(sorted, tail), low, 12);
        Assert.Equal(Sample.Quantile(sorted, 1 - tail), high, 12);
    }
}
