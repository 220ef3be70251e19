using LeafScan.Leaves.Learned;

namespace LeafScan.Leaves.Tests.Learned;

public class PlanePoolTests
{
    [Fact]
    public void What_is_rented_at_the_same_time_is_never_the_same_and_always_long_enough()
    {
        float[][] rented = [.. Enumerable.Range(1, PlanePool.Most + 4).Select(i => PlanePool.Rent(i * 100_000))];
        Assert.Equal(rented.Length, rented.Distinct().Count());
        Assert.All(rented.Select((array, i) => (array, i)), r => Assert.True(r.array.Length >= (r.i + 1) * 100_000));
        foreach (float[] array in rented)
        {
            PlanePool.Return(array);
        }

        // Four of them are gone: no more than are kept are given out once more.
        float[][] again = [.. Enumerable.Range(0, rented.Length).Select(_ => PlanePool.Rent(1))];
        Assert.InRange(again.Count(rented.Contains), 0, PlanePool.Most);
        Assert.Equal(again.Length, again.Distinct().Count());
    }

    [Fact]
    public async Task Many_threads_never_share_an_array()
    {
        int[] clashes = await Task.WhenAll(Enumerable.Range(1, 8).Select(n => Task.Run(() =>
        {
            int seen = 0;
            for (int i = 0; i < 300; i++)
            {
                float[] own = PlanePool.Rent(1000 + (i * n));
                own[0] = n;
                own[999] = n;
                Thread.Yield();
                seen += own[0] == n && own[999] == n ? 0 : 1;
                PlanePool.Return(own);
            }

            return seen;
        })));
        Assert.Equal(0, clashes.Sum());
    }
}
