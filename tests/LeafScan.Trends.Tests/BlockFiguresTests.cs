using LeafScan.Trends.Blocks;

namespace LeafScan.Trends.Tests;

public sealed class BlockFiguresTests
{
    [Fact]
    public void Incidence_counts_plants_and_its_interval_is_wilsons()
    {
        BlockFigures block = Of([.. Enumerable.Range(0, 23).Select(i => i < 4 ? 0.2 : 0.01)]);
        Assert.Equal((23, 4), (block.PlantCount, block.AffectedCount));

        // scipy.stats.binomtest(4, 23).proportion_ci(0.9, 'wilson')
        Assert.Equal(0.08056614733, block.IncidenceInterval!.Value.Low, 9);
        Assert.Equal(0.33590213209, block.IncidenceInterval!.Value.High, 9);
    }

    [Fact]
    public void Zero_affected_plants_still_leave_room()
    {
        // scipy.stats.binomtest(0, 3).proportion_ci(0.9, 'wilson')
        Assert.Equal(0.47419557416, Of(0.01, 0.02, 0).IncidenceInterval!.Value.High, 9);
    }

    [Fact]
    public void A_plant_with_many_leaves_counts_for_no_more_than_others()
    {
        BlockPlant many = Plant("many", [.. Enumerable.Repeat(0.4, 30)]);
        BlockPlant one = Plant("one", 0.0);
        BlockFigures block = BlockFigures.Of([many, one], new TrendOptions(), new Random(1));
        Assert.Equal(0.2, block.Damage!.Value, 9);
        Assert.Equal(31, block.LeafCount);
        Assert.True(block.DamageInterval!.Value.Holds(0.2));
    }

    [Fact]
    public void The_worst_plant_comes_first_and_one_without_a_leaf_is_left_out()
    {
        BlockFigures block = BlockFigures.Of([Plant("a", 0.1), Plant("b", 0.3), Plant("c"), Plant("d", 0.2)], new TrendOptions(), new Random(1));
        Assert.Equal(["b", "d", "a"], block.WorstFirst.Select(plant => plant.Code));
        Assert.Equal(1, block.PlantCountLeftOut);
    }

    [Fact]
    public void Nothing_measured_is_a_block_without_figures()
    {
        BlockFigures block = BlockFigures.Of([Plant("a")], new TrendOptions(), new Random(1));
        Assert.Equal((0, 1, null, null), (block.PlantCount, block.PlantCountLeftOut, block.Incidence, block.Damage));
    }

    private static BlockFigures Of(params double[] damages) =>
        BlockFigures.Of([.. damages.Select((damage, i) => Plant($"P{i}", damage))], new TrendOptions(), new Random(1));

    private static BlockPlant Plant(string code, params double[] damages) =>
        new(code, null, null, LeafFigures.Of(damages.Select((damage, i) => Some.Leaf(damage) with { PhotoId = i + 1 }), new TrendOptions(), new Random(1)));
}
