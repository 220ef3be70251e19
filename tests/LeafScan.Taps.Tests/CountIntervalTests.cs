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
        Assert.True(CountInterval.Of(crawling, once, blurred: true).High > high);
        Assert.True(CountInterval.Of(crawling, once, shaken: true).High > high);
        Assert.True(CountInterval.Of(crawling + 10, once, unjudged: 0.3).High > CountInterval.Of(crawling + 10, once).High + 2);
    }
}
