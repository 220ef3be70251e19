using LeafScan.Leaves.Baseline;

namespace LeafScan.Leaves.Tests.Baseline;

public class BandsTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(63)]
    [InlineData(1000)]
    public void Every_row_is_worked_on_once(int rows)
    {
        int[] visits = new int[rows];
        Bands.Run(rows, (first, end) =>
        {
            for (int y = first; y < end; y++)
            {
                Interlocked.Increment(ref visits[y]);
            }
        });
        Assert.All(visits, v => Assert.Equal(1, v));
    }

    [Fact]
    public void What_goes_wrong_in_a_band_reaches_the_caller_as_itself()
    {
        Assert.Throws<InvalidDataException>(() => Bands.Run(1000, (first, _) => throw new InvalidDataException($"row {first}")));
        Assert.Throws<InvalidDataException>(() => Bands.Each(5, i => throw new InvalidDataException($"number {i}")));
        Assert.Throws<InvalidDataException>(() => Bands.Both(() => { }, () => throw new InvalidDataException("second")));
    }
}
