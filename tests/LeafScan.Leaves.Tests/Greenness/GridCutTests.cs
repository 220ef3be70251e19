using LeafScan.Leaves.Greenness;

namespace LeafScan.Leaves.Tests.Greenness;

public class GridCutTests
{
    private const int Cols = 4;
    private const int Rows = 3;

    // Checked against every one of the 4096 ways to part twelve pixels: no outside source is needed where all can be tried.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    public void No_other_cut_of_a_small_grid_is_cheaper(int seed)
    {
        Random random = new(seed);
        float[] leaning = Numbers(random, -2, 2);
        float[] right = Numbers(random, 0, 1.5);
        float[] below = Numbers(random, 0, 1.5);

        bool[] cut = GridCut.Cut(leaning, right, below, Cols);

        double cheapest = Enumerable.Range(0, 1 << (Cols * Rows))
            .Min(way => Cost([.. Enumerable.Range(0, Cols * Rows).Select(i => (way >> i & 1) == 1)], leaning, right, below));
        Assert.Equal(cheapest, Cost(cut, leaning, right, below), 1e-9);
    }

    [Fact]
    public void Without_bonds_each_pixel_goes_where_it_leans()
    {
        float[] leaning = [1, -1, 2, -3, 0.5f, -0.5f, 1, 1, -1, -1, 4, -4];

        bool[] cut = GridCut.Cut(leaning, new float[12], new float[12], Cols);

        Assert.Equal(leaning.Select(l => l > 0), cut);
    }

    // In quarters, which the cut's whole numbers hold exactly.
    private static float[] Numbers(Random random, double low, double high)
        => [.. Enumerable.Range(0, Cols * Rows).Select(_ => MathF.Round((float)(low + (random.NextDouble() * (high - low))) * 4) / 4)];

    private static double Cost(bool[] inside, float[] leaning, float[] right, float[] below)
    {
        double cost = 0;
        for (int i = 0; i < inside.Length; i++)
        {
            cost += inside[i] ? 0 : Math.Max(0, leaning[i]);
            cost += inside[i] ? Math.Max(0, -leaning[i]) : 0;
            cost += (i + 1) % Cols != 0 && inside[i] != inside[i + 1] ? right[i] : 0;
            cost += i + Cols < inside.Length && inside[i] != inside[i + Cols] ? below[i] : 0;
        }

        return cost;
    }
}
