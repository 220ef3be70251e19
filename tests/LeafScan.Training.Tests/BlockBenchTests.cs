using LeafScan.Training.BlockBench;

namespace LeafScan.Training.Tests;

public sealed class BlockBenchTests
{
    [Fact]
    public void The_line_through_sizes_is_that_of_least_squares()
    {
        // Worked example by hand: (1, 1), (2, 3), (3, 2) have slope 0.5, value 1 at 0, and a quarter of the variance on the line.
        SizeCost cost = SizeCost.Fit([new(1, 9, 1), new(2, 9, 3), new(3, 9, 2)]);
        Assert.Equal(0.5, cost.SecondsPerMegapixel, 12);
        Assert.Equal(1, cost.FixedSeconds, 12);
        Assert.Equal(0.25, cost.RSquared, 12);
        Assert.Equal(0.5, cost.LargestMiss, 12);
    }

    [Fact]
    public void The_speed_up_is_photos_a_second_of_most_jobs_over_one()
    {
        BlockReport report = new([new BlockPass(2, 20, 0, 10, 19, []), new BlockPass(1, 20, 0, 18, 19, [])], SizeCost.Fit([new(1, 1, 1), new(2, 2, 2)]));
        Assert.Equal(1.8, report.SpeedUp, 12);
        Assert.Contains("Speed-up: 1.80.", report.Markdown(), StringComparison.Ordinal);
    }
}
