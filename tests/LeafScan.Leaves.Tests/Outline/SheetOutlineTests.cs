using LeafScan.Leaves.Outline;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Outline;

public class SheetOutlineTests
{
    [Theory]
    [InlineData(238, 240, 240)]
    [InlineData(150, 150, 150)]
    [InlineData(190, 215, 230)]
    [InlineData(235, 215, 200)]
    public void A_leaf_is_found_on_paper_of_any_plain_colour(int b, int g, int r)
    {
        using DrawnSheet sheet = new DrawnSheet(paper: new Scalar(b, g, r)).Leaf(450, 350, 600, 260, 25).Photographed();
        using OutlineResult found = Find(sheet);
        FoundLeaf leaf = Assert.Single(found.Leaves);
        Assert.Empty(leaf.Flags);
        Assert.InRange(OutlineScore.Of(found, sheet.Truth), 0.985, 1);
    }

    [Fact]
    public void Several_leaves_come_back_one_by_one_and_largest_first()
    {
        using DrawnSheet sheet = new DrawnSheet()
            .Leaf(180, 200, 260, 120, 60).Leaf(470, 180, 300, 150, -20).Leaf(740, 420, 320, 200, 80).Leaf(330, 520, 280, 140, 5, DrawnSheet.Yellow)
            .Shadow(12, 14, 0.5, 3).Photographed();
        using OutlineResult found = Find(sheet);
        Assert.Equal(4, found.Leaves.Count);
        int[] areas = found.Leaves.Select(l => Cv2.CountNonZero(l.Mask)).ToArray();
        Assert.Equal(areas.OrderDescending(), areas);
        Assert.InRange(OutlineScore.Of(found, sheet.Truth), 0.98, 1);
    }

    [Theory]
    [InlineData(0.45, 12)]
    [InlineData(0.8, 2)]
    [InlineData(0.9, 0.5)]
    public void A_shadow_beside_the_leaf_is_not_leaf(double strength, double softness)
    {
        using DrawnSheet sheet = new DrawnSheet().Leaf(430, 330, 600, 280, 15).Shadow(30, 35, strength, softness).Photographed();
        using OutlineResult found = Find(sheet);
        Assert.Single(found.Leaves);
        Assert.InRange(OutlineScore.Of(found, sheet.Truth), 0.98, 1);
    }

    [Fact]
    public void Holes_are_left_out_while_brown_and_yellow_spots_stay_leaf()
    {
        using DrawnSheet sheet = new DrawnSheet().Leaf(450, 350, 620, 320, 10)
            .Hole(380, 330, 18).Hole(560, 380, 30)
            .Spot(300, 310, 22, DrawnSheet.Brown).Spot(470, 400, 25, DrawnSheet.Yellow)
            .Photographed();
        using OutlineResult found = Find(sheet);
        using Mat mask = OutlineScore.Together(found, sheet.Truth.Size());
        Assert.Equal(0, mask.At<byte>(330, 380));
        Assert.Equal(0, mask.At<byte>(380, 560));
        Assert.Equal(255, mask.At<byte>(310, 300));
        Assert.Equal(255, mask.At<byte>(400, 470));
        Assert.InRange(OutlineScore.Of(found, sheet.Truth), 0.985, 1);
    }

    [Fact]
    public void Glare_inside_the_leaf_is_leaf()
    {
        using DrawnSheet sheet = new DrawnSheet().Leaf(450, 350, 620, 320, 10).Glare(430, 330, 40).Photographed();
        using OutlineResult found = Find(sheet);
        Assert.InRange(OutlineScore.Of(found, sheet.Truth), 0.985, 1);
    }

    [Fact]
    public void A_brown_dead_leaf_is_a_leaf()
    {
        using DrawnSheet sheet = new DrawnSheet().Leaf(450, 350, 600, 280, -30, DrawnSheet.Brown).Shadow(15, 15, 0.6, 3).Photographed();
        using OutlineResult found = Find(sheet);
        Assert.Single(found.Leaves);
        Assert.InRange(OutlineScore.Of(found, sheet.Truth), 0.98, 1);
    }

    [Fact]
    public void A_leaf_that_leaves_the_frame_is_flagged()
    {
        using DrawnSheet sheet = new DrawnSheet().Leaf(120, 350, 600, 280, 0).Photographed();
        using OutlineResult found = Find(sheet);
        Assert.Contains(Flag.LeafCutOff.Name, Assert.Single(found.Leaves).Flags);
    }

    [Theory]
    [InlineData(100, 78, 0.93)]
    [InlineData(256, 200, 0.96)]
    [InlineData(1600, 1200, 0.985)]
    [InlineData(4000, 3000, 0.985)]
    public void Photos_of_every_size_are_read(int width, int height, double least)
    {
        using DrawnSheet sheet = new DrawnSheet(width, height).Leaf(450, 340, 560, 260, 20).Photographed();
        using OutlineResult found = Find(sheet);
        FoundLeaf leaf = Assert.Single(found.Leaves);
        Assert.InRange(OutlineScore.Of(found, sheet.Truth), least, 1);
        Assert.Equal(leaf.Box.Size, leaf.Mask.Size());
        Assert.Equal(Math.Max(width, height) < 320, leaf.Flags.Contains(Flag.LeafTooSmall.Name));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_sheet_that_lies_on_a_wooden_table_counts_as_the_sheet(bool brown)
    {
        using DrawnSheet sheet = new DrawnSheet().Leaf(450, 350, 480, 220, 25, brown ? DrawnSheet.Brown : DrawnSheet.Green).Table(110, 80).Photographed();
        using OutlineResult found = Find(sheet);
        Assert.Single(found.Leaves);
        Assert.InRange(OutlineScore.Of(found, sheet.Truth), 0.98, 1);
    }

    [Fact]
    public void The_same_photo_gives_the_same_mask()
    {
        using DrawnSheet sheet = new DrawnSheet().Leaf(450, 350, 600, 260, 25).Photographed();
        using OutlineResult one = Find(sheet);
        using OutlineResult two = Find(sheet);
        using Mat first = OutlineScore.Together(one, sheet.Truth.Size());
        Assert.Equal(1, OutlineScore.Of(two, first));
    }

    private static OutlineResult Find(DrawnSheet sheet) => OutlineFinder.Find(sheet.Pixels, new OutlineOptions(), CancellationToken.None);
}
