using LeafScan.Records;

namespace LeafScan.Trends.Tests;

/// <summary>Gaps, sides and specks on needles of a walk.</summary>
public sealed class FoliageFiguresTests
{
    [Theory]
    [InlineData("none", "none")]
    [InlineData("left", "left")]
    [InlineData("none", "none", "none")]
    [InlineData("right", "right", "right")]
    [InlineData("left 2 of 3", "left", "none", "left")]
    [InlineData("left 1, right 1 of 2", "right", "left")]
    [InlineData("right 2, left 1 of 4", "left", "right", "none", "right")]
    public void The_worst_side_is_said_as_far_as_the_photos_agree(string words, params string[] sides)
        => Assert.Equal(words, Of([.. sides.Select(side => View(0.1, side))]).Crown!.WorstSideWords);

    [Fact]
    public void Views_of_one_plant_are_averaged_with_their_own_intervals()
    {
        LeafFigures figures = Of(View(0.1, "left", 0.05, 0.2), View(0.3, "left", 0.2, 0.6));

        Assert.Equal(2, figures.Crown!.ViewCount);
        Assert.Equal(0.2, figures.Crown.Thinning, 9);
        Assert.Equal(0.125, figures.Crown.ThinningInterval.Low, 9);
        Assert.Equal(0.4, figures.Crown.ThinningInterval.High, 9);
        Assert.Null(figures.Needles);
    }

    [Fact]
    public void A_view_from_before_gaps_were_kept_and_one_that_does_not_count_are_left_out()
    {
        LeafFigures figures = Of(View(0.1, "left"), View(0.9, "right") with { Foliage = null }, View(0.9, "right") with { Flags = ["damagedFile"] });

        Assert.Equal((1, 0.1, "left"), (figures.Crown!.ViewCount, figures.Crown.Thinning, figures.Crown.WorstSideWords));
        Assert.Equal(2, figures.LeafCount);
    }

    [Fact]
    public void Specks_per_cm_are_of_the_twigs_that_have_them_and_leaves_have_neither()
    {
        LeafFigures twigs = Of(Twig(2), Twig(4), Twig(null));
        Assert.Equal((2, 3.0), (twigs.Needles!.TwigCount, twigs.Needles.SpecksPerCm));
        Assert.Null(twigs.Crown);
        LeafFigures leaves = Of(Some.Leaf(0.1));
        Assert.Null(leaves.Crown);
        Assert.Null(leaves.Needles);
    }

    private static LeafFigures Of(params LeafOnRecord[] leaves) => LeafFigures.Of(leaves, new TrendOptions(), SteadyChance.New());

    private static LeafOnRecord View(double thinning, string side, double low = 0, double high = 1)
        => Some.Leaf(0.1) with { Kind = "plant", Foliage = new FoliageOnRecord(null, null, new CrownOnRecord(thinning, low, high, side, "none", 0)) };

    private static LeafOnRecord Twig(double? specks) => Some.Leaf(0.1) with { Kind = "twig", Foliage = new FoliageOnRecord(specks is null ? null : 100, specks, null) };
}
