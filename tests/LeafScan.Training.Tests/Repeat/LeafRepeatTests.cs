using LeafScan.Training.Bench.Repeat;

namespace LeafScan.Training.Tests.Repeat;

public class LeafRepeatTests
{
    // By hand: readings 1 and 3 have variance 2, readings 5 and 5 have 0; their mean is 1 and its root 1.
    [Fact]
    public void Spread_is_pooled_as_the_root_of_the_mean_variance()
    {
        LeafRepeat[] leaves = [Leaf(0.01, 0.03), Leaf(0.05, 0.05)];
        Assert.Equal(0.01, LeafRepeat.Pooled(leaves, s => s.Damage), 12);
        Assert.Equal(Math.Sqrt(2) * 0.01, leaves[0].DamageSd, 12);
    }

    // One-way analysis of variance by hand: leaf a 1, 2, 3 has squares about its mean 2 on 2 degrees of freedom; leaf b 4, 8
    // has 8 on 1. Together 10 on 3.
    [Fact]
    public void Leaves_weigh_by_their_degrees_of_freedom()
        => Assert.Equal(Math.Sqrt(10 / 3.0), LeafRepeat.Pooled([Leaf(1, 2, 3), Leaf(4, 8)], s => s.Damage), 12);

    [Fact]
    public void A_leaf_with_a_single_shot_tells_nothing()
    {
        Assert.True(double.IsNaN(LeafRepeat.Pooled([Leaf(0.2)], s => s.Damage)));
        Assert.True(double.IsNaN(Leaf(0.2).DamageSd));
        Assert.Equal(0.01, LeafRepeat.Pooled([Leaf(0.2), Leaf(0.01, 0.03), Leaf(0.05, 0.05)], s => s.Damage), 12);
    }

    [Fact]
    public void Shots_that_lost_the_outline_can_be_left_out()
        => Assert.Equal([0.1, 0.2], Leaf(0.1, 0.9, 0.2).Outlined().Shots.Select(s => s.Damage));

    private static LeafRepeat Leaf(params double[] damages)
        => new("set/leaf", "set", 0, null, [.. damages.Select(d => new ShotReading(d, d, 10, d < 0.5 ? 0.95 : 0.3, d))], 0);
}
