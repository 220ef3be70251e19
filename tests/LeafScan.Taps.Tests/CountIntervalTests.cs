namespace LeafScan.Taps.Tests;

public class CountIntervalTests
{
    [Theory]
    [InlineData(0, 0)]
    [InlineData(5, 0)]
    [InlineData(5, 4)]
    [InlineData(60, 3)]
    [InlineData(200, 30)]
    public void The_interval_holds_the_count_and_widens_with_what_was_seen_once(int crawling, int once)
    {
        (int low, int high) = CountInterval.Of(crawling, once);
        Assert.InRange(low, 0, crawling);
        Assert.InRange(high, crawling, int.MaxValue);
        (int lowMore, int highMore) = CountInterval.Of(crawling, once + 10);
        Assert.True(highMore > high);
        Assert.Equal(low, lowMore);
        Assert.True(CountInterval.Of(crawling + 5, once, new CountLosses { Blurred = true }).High > CountInterval.Of(crawling + 5, once).High);
        Assert.True(CountInterval.Of(crawling, once, new CountLosses { BlurredUnscaled = true }).High > high);
        Assert.True(CountInterval.Of(crawling, once, new CountLosses { Shaken = true }).High >= high);
        Assert.True(CountInterval.Of(crawling + 5, once, new CountLosses { Windy = true }).High > CountInterval.Of(crawling + 5, once).High);
        (int lowPatchy, int highPatchy) = CountInterval.Of(crawling + 5, once, new CountLosses { Patchy = true });
        Assert.True(highPatchy > CountInterval.Of(crawling + 5, once).High && lowPatchy < crawling + 5);
        Assert.True(CountInterval.Of(crawling + 10, once, new CountLosses { Unjudged = 0.3 }).High > CountInterval.Of(crawling + 10, once).High + 2);
        Assert.True(CountInterval.Of(crawling + 10, once, new CountLosses { Faint = 0.3 }).High > CountInterval.Of(crawling + 10, once).High + 2);
    }

    [Theory]
    [InlineData(0.36, 0.5)]
    [InlineData(0.28, 0.1587)]
    [InlineData(0.20, 0.0228)]
    [InlineData(0.44, 0.8413)]
    public void The_share_of_mites_too_small_to_see_follows_the_normal_distribution(double longestUnseenMm, double share)
    {
        // Outside check: tabled values of the normal distribution at 0, -1, -2 and 1 deviations (NIST/SEMATECH e-Handbook, 1.3.6.7.1).
        // A body is 1.26 times as long as the disc of its area is wide: the root of 1 / 0.63.
        double disc = longestUnseenMm * Math.Sqrt(0.63);
        Assert.Equal(share, FaintMites.Share(disc, 0.4), 0.012);
    }
}
