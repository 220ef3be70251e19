using LeafScan.Leaves.Reading;

namespace LeafScan.Leaves.Tests.Reading;

public class ReadingRoundingTests
{
    [Fact]
    public void Rounded_shares_of_ten_thousand_random_leaves_add_up_to_one()
    {
        Random random = new(20260702);
        for (int i = 0; i < 10_000; i++)
        {
            double[] parts = [.. Enumerable.Range(0, 6).Select(_ => random.Next(4) == 0 ? 0 : Math.Pow(random.NextDouble(), 4))];
            double sum = parts.Sum();
            if (sum == 0)
            {
                continue;
            }

            LeafShares exact = new(parts[0] / sum, parts[1] / sum, parts[2] / sum, parts[3] / sum, parts[4] / sum, parts[5] / sum);
            LeafShares rounded = ReadingRounding.Round(exact);

            Assert.Equal(1m, Sum(rounded));
            Assert.InRange(Math.Abs(rounded.Stippled - exact.Stippled), 0, 1e-6);
            Assert.InRange(Math.Abs(rounded.Unassessed - exact.Unassessed), 0, 1e-6);
        }
    }

    [Fact]
    public void Thirds_give_the_spare_millionth_to_one_of_them()
    {
        LeafShares rounded = ReadingRounding.Round(new LeafShares(1 / 3.0, 1 / 3.0, 1 / 3.0, 0, 0, 0));
        Assert.Equal(1m, Sum(rounded));
        Assert.Equal(0.333334, rounded.Sound);
        Assert.Equal(0.333333, rounded.Stippled);
    }

    [Theory]
    [InlineData(0.5, 0.4)]
    [InlineData(1.2, -0.2)]
    [InlineData(double.NaN, 1)]
    public void Shares_that_cannot_be_right_are_a_bug_and_say_so(double sound, double stippled) =>
        Assert.Throws<ArgumentException>(() => ReadingRounding.Round(new LeafShares(sound, stippled, 0, 0, 0, 0)));

    // Decimal, so that the test does not share the rounding errors of what it tests.
    private static decimal Sum(LeafShares shares) => (decimal)shares.Sound + (decimal)shares.Stippled + (decimal)shares.Yellowed
        + (decimal)shares.Browned + (decimal)shares.Chewed + (decimal)shares.Unassessed;
}
