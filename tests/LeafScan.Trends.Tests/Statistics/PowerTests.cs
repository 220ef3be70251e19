using LeafScan.Records;
using LeafScan.Trends.Statistics;

namespace LeafScan.Trends.Tests.Statistics;

public sealed class PowerTests
{
    // Cohen 1988, Statistical Power Analysis, table for t tests: 64 in each group for half a standard deviation, 34 pairs
    // for the same change of pairs, both at 5 % two-sided with power 0.8 (values from memory; the near form may miss by one).
    [Fact]
    public void Samples_for_half_a_standard_deviation_are_Cohens()
    {
        Assert.InRange(SmallestChange.CountFor(0.5, 1, 1, 0.95)!.Value, 63, 65);
        Assert.InRange(SmallestChange.PairsFor(-0.5, 1, 0.95)!.Value, 33, 35);
    }

    // By lot: a change of just the stated size is found about four times in five.
    [Fact]
    public void The_smallest_change_is_found_four_times_in_five()
    {
        double change = SmallestChange.Of(1, 10, 1, 10, 0.9);
        var random = new Random(4);
        int found = 0;
        for (int trial = 0; trial < 3000; trial++)
        {
            double[] first = [.. Enumerable.Range(0, 10).Select(_ => MathNet.Numerics.Distributions.Normal.Sample(random, 0, 1))];
            double[] second = [.. Enumerable.Range(0, 10).Select(_ => MathNet.Numerics.Distributions.Normal.Sample(random, change, 1))];
            found += WelchDifference.Of(first, second, 0.9).Interval.Low > 0 ? 1 : 0;
        }

        Assert.InRange(found / 3000.0, 0.77, 0.83);
    }

    [Fact]
    public void No_change_cannot_be_settled() => Assert.Null(SmallestChange.CountFor(0, 1, 1, 0.9));

    // Two plants with forty leaves each are two values, not eighty.
    [Fact]
    public void A_block_is_judged_over_plants_and_not_over_leaves()
    {
        List<LeafOnRecord> leaves = [];
        foreach ((long plant, double before, double after) in new[] { (1L, 0.10, 0.14), (2L, 0.20, 0.21), (3L, 0.05, 0.11), (4L, 0.30, 0.33) })
        {
            leaves.AddRange(Enumerable.Range(0, 20).SelectMany(_ => new[]
            {
                Some.Leaf(before, Some.June) with { PlantId = plant }, Some.Leaf(after, Some.July) with { PlantId = plant },
            }));
        }

        leaves.Add(Some.Leaf(0.9, Some.June) with { PlantId = 5 });
        GroupComparison block = GroupComparison.Of(leaves, Month.Of(Some.June), Month.Of(Some.July));

        Assert.Equal((4, 1), (block.PlantCount, block.PlantCountLeftOut));
        Assert.Equal(0.035, block.Difference!.Value, 1e-12);

        // By hand: changes 4, 1, 6, 3 points; SD 2.0817, error 1.0408, t(3, 95 %) = 2.3534.
        Assert.Equal(0.035 - (2.3534 * 0.010408), block.Pairs!.Interval.Low, 1e-5);
        Assert.Equal(1 / 16.0, block.SignedRank!.PGreater, 1e-12);
        Assert.Equal(0, block.MorePlantsToSettle);
        Assert.True(block.SmallestChange > 0.02);
        Assert.Null(GroupComparison.Of(leaves.Where(leaf => leaf.PlantId == 1), Month.Of(Some.June), Month.Of(Some.July)).Pairs);
    }

    [Fact]
    public void Old_leaves_and_new_growth_have_series_of_their_own()
    {
        var apart = Series.Apart(Some.Leaves(Some.June, 0.2, 0.3, 0, 0.01), leaf => leaf.Damage < 0.1 ? "new" : "old", null, () => new Random(1));

        Assert.Equal(["new", "old"], apart.Select(group => group.Group));
        Assert.Equal(0.25, apart[1].Points[0].Leaves.Damage!.Value, 1e-12);
    }
}
