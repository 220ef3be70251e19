using LeafScan.Leaves.WholePlant;

namespace LeafScan.Leaves.Tests.WholePlant;

public class SideDifferenceTests
{
    [Fact]
    public void A_side_that_is_worse_at_every_height_is_named()
    {
        SideDifference difference = SideDifference.Of([.. Enumerable.Range(0, 12).Select(i => (0.05, 0.2 + (0.01 * (i % 3)), 100.0))]);
        Assert.Equal("right", difference.Worst);
        Assert.InRange(difference.Error, 0, 0.01);
    }

    [Fact]
    public void One_bad_patch_is_within_its_own_error_and_names_no_side()
    {
        // Twelve strips, all harm of the left half in one of them: mean 0.05, standard error 0.05.
        SideDifference difference = SideDifference.Of([.. Enumerable.Range(0, 12).Select(i => (i == 4 ? 0.6 : 0, 0.0, 100.0))]);
        Assert.Equal(0.05, difference.Left, 1e-9);
        Assert.Equal(0.05, difference.Error, 1e-9);
        Assert.Equal("none", difference.Worst);
    }

    [Fact]
    public void The_error_is_that_of_a_mean_of_differences()
    {
        // Differences 0.1, 0.2, 0.3, 0.4: standard deviation 0.1291, by the root of 4 it is 0.0645 (worked by hand).
        SideDifference difference = SideDifference.Of([(0, 0.1, 5), (0, 0.2, 5), (0, 0.3, 5), (0, 0.4, 5)]);
        Assert.Equal(0.06455, difference.Error, 1e-5);
    }

    [Theory]
    [InlineData(0.50, 0.55)]
    [InlineData(0.01, 0.03)]
    public void A_small_difference_names_no_side_however_sure_it_is(double left, double right)
        => Assert.Equal("none", SideDifference.Of([.. Enumerable.Repeat((left, right, 10.0), 12)]).Worst);

    [Fact]
    public void A_plant_without_area_has_no_worse_side()
        => Assert.Equal("none", SideDifference.Of([(1, 0, 0), (1, 0, 0)]).Worst);
}
