using LeafScan.Leaves.Tissue;

namespace LeafScan.Leaves.Tests;

public class MeasureOptionsTests
{
    [Fact]
    public void The_hash_follows_every_setting_and_nothing_else()
    {
        string usual = new MeasureOptions().Hash();
        Assert.Equal(usual, new MeasureOptions().Hash());
        Assert.Equal(16, usual.Length);
        Assert.NotEqual(usual, new MeasureOptions { Tissue = new TissueOptions { SpeckStrength = 0.21 } }.Hash());
        Assert.NotEqual(usual, new MeasureOptions { MostLeaves = 3 }.Hash());
    }
}
