using LeafScan.Leaves.Reading;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Plants;
using OpenCvSharp;

namespace LeafScan.Training.Tests.Plants;

public class PlantRendererTests
{
    [Theory]
    [InlineData(3, Difficulty.Easy)]
    [InlineData(6, Difficulty.Medium)]
    [InlineData(9, Difficulty.Hard)]
    public void The_same_seed_gives_the_same_bytes(int seed, Difficulty level)
    {
        using RenderedPlant first = PlantRenderer.Render(PlantChooser.Choose(seed, level, 480));
        using RenderedPlant second = PlantRenderer.Render(PlantChooser.Choose(seed, level, 480));
        Assert.True(first.Jpeg.Span.SequenceEqual(second.Jpeg.Span));
        Assert.Equal(PlantWriter.Json(first).ToJsonString(), PlantWriter.Json(second).ToJsonString());
        using Mat difference = new();
        Cv2.Absdiff(first.Mask, second.Mask, difference);
        Assert.Equal(0, Cv2.CountNonZero(difference));
    }

    [Fact]
    public void Another_seed_gives_another_plant()
    {
        using RenderedPlant first = PlantRenderer.Render(PlantChooser.Choose(3, Difficulty.Easy, 480));
        using RenderedPlant second = PlantRenderer.Render(PlantChooser.Choose(4, Difficulty.Easy, 480));
        Assert.False(first.Jpeg.Span.SequenceEqual(second.Jpeg.Span));
    }

    [Fact]
    public void The_whole_plant_lies_in_the_frame()
    {
        foreach (int seed in Enumerable.Range(40, 12))
        {
            using RenderedPlant plant = PlantRenderer.Render(PlantChooser.Choose(seed, Difficulty.Easy, 400));
            using Mat inner = new(plant.Mask, new Rect(1, 1, plant.Mask.Cols - 2, plant.Mask.Rows - 2));
            Assert.True(Cv2.CountNonZero(plant.Mask) == Cv2.CountNonZero(inner), $"seed {seed}, {plant.Spec.Host}");
            Assert.True(plant.Truth.FoliagePx > 3000, $"seed {seed}: {plant.Truth.FoliagePx}");
        }
    }

    [Fact]
    public void What_stands_around_a_plant_does_not_change_its_truth()
    {
        PlantSpec alone = Plain.Plant(new PlantDamage { Seed = 5, BrownShare = 0.2, LostShare = 0.2 });
        PlantSpec beside = alone with { Neighbours = [alone with { Seed = 9, FootX = 40, Damage = new PlantDamage { Seed = 6, BrownShare = 0.5 } }] };
        using RenderedPlant one = PlantRenderer.Render(alone);
        using RenderedPlant two = PlantRenderer.Render(beside);
        Assert.Equal(one.Truth with { Sectors = [] }, two.Truth with { Sectors = [] });
        Assert.Equal(one.Truth.Sectors, two.Truth.Sectors);
        Assert.False(one.Jpeg.Span.SequenceEqual(two.Jpeg.Span));
    }

    [Fact]
    public void More_damage_on_the_same_plant_keeps_its_shape_and_its_old_damage()
    {
        using RenderedPlant before = PlantRenderer.Render(Plain.Plant(new PlantDamage { Seed = 5, BrownShare = 0.1 }));
        using RenderedPlant after = PlantRenderer.Render(Plain.Plant(new PlantDamage { Seed = 5, BrownShare = 0.3 }));
        Assert.Equal(before.Truth.FoliagePx, after.Truth.FoliagePx);
        Assert.True(after.Truth.Shares.Browned > 1.5 * before.Truth.Shares.Browned);
        using Mat old = new();
        using Mat now = new();
        Cv2.Compare(before.Mask, Scalar.All((int)MaskCode.Browned), old, CmpTypes.EQ);
        Cv2.Compare(after.Mask, Scalar.All((int)MaskCode.Browned), now, CmpTypes.EQ);
        using Mat healed = new();
        Cv2.Subtract(old, now, healed);
        Assert.Equal(0, Cv2.CountNonZero(healed));
    }

    [Fact]
    public void Brown_foliage_looks_brown_in_the_photo_and_sound_foliage_green()
    {
        using RenderedPlant plant = PlantRenderer.Render(Plain.Plant(new PlantDamage { Seed = 5, BrownShare = 0.4 }));
        using Mat photo = Cv2.ImDecode(plant.Jpeg.ToArray(), ImreadModes.Color);
        Scalar brown = Mean(photo, plant.Mask, MaskCode.Browned);
        Scalar sound = Mean(photo, plant.Mask, MaskCode.Sound);
        Assert.True(brown.Val2 > brown.Val1, $"brown: red {brown.Val2:F0}, green {brown.Val1:F0}");
        Assert.True(sound.Val1 > sound.Val2, $"sound: red {sound.Val2:F0}, green {sound.Val1:F0}");
    }

    [Fact]
    public void An_unknown_plant_is_refused_with_the_known_names()
    {
        ArgumentException error = Assert.Throws<ArgumentException>(() => PlantHabits.Named("oak"));
        Assert.Contains("dwarfAlbertaSpruce", error.Message, StringComparison.Ordinal);
    }

    private static Scalar Mean(Mat photo, Mat mask, MaskCode code)
    {
        using Mat here = new();
        Cv2.Compare(mask, Scalar.All((int)code), here, CmpTypes.EQ);
        return Cv2.Mean(photo, here);
    }
}
