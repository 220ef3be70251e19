using System.Text.Json.Nodes;
using LeafScan.Leaves.Reading;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Plants;
using OpenCvSharp;

namespace LeafScan.Training.Tests.Plants;

public class PlantTruthTests
{
    public static TheoryData<string> AllHosts => [.. PlantHabits.All.Select(habit => habit.Name)];

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(12)]
    public void Shares_in_the_written_truth_are_those_counted_in_the_written_mask(int seed)
    {
        string folder = Path.Combine(Path.GetTempPath(), $"leafscan-plant-{Guid.NewGuid():N}");
        try
        {
            using RenderedPlant plant = PlantRenderer.Render(PlantChooser.Choose(seed, Difficulty.Medium, 480));
            PlantWriter.Write(plant, folder);
            string path = Path.Combine(folder, plant.Spec.Name);
            JsonNode truth = JsonNode.Parse(File.ReadAllText(path + ".truth.json"))!;
            using Mat mask = Cv2.ImRead(path + ".truth.png", ImreadModes.Unchanged);
            using Mat photo = Cv2.ImRead(path + ".jpg", ImreadModes.Color);
            Assert.Equal(photo.Size(), mask.Size());
            Assert.Equal(MatType.CV_8UC1, mask.Type());
            double area = Cv2.CountNonZero(mask);
            Assert.Equal(area, (double)truth["leafAreaPx"]!);
            Assert.Equal(Plain.Count(mask, MaskCode.Yellowed) / area, (double)truth["shares"]!["yellowed"]!, 9);
            Assert.Equal(Plain.Count(mask, MaskCode.Browned) / area, (double)truth["shares"]!["browned"]!, 9);
            Assert.Equal(area, Plain.Count(mask, MaskCode.Sound) + Plain.Count(mask, MaskCode.Yellowed) + Plain.Count(mask, MaskCode.Browned));
            Assert.Equal(area, truth["sectors"]!.AsArray().Sum(sector => (double)sector!["foliagePx"]!));
            Assert.Equal("plant", (string)truth["kind"]!);
        }
        finally
        {
            Directory.Delete(folder, true);
        }
    }

    [Theory]
    [MemberData(nameof(AllHosts))]
    public void Thinning_is_the_foliage_missing_against_the_same_plant_with_nothing_fallen(string host)
    {
        PlantDamage damage = new() { Seed = 5, BrownShare = 0.1, LostShare = 0.3 };
        using RenderedPlant thin = PlantRenderer.Render(Plain.Plant(damage, host));
        using RenderedPlant full = PlantRenderer.Render(Plain.Plant(damage with { LostShare = 0 }, host));
        double expected = 1 - ((double)Cv2.CountNonZero(thin.Mask) / Cv2.CountNonZero(full.Mask));
        Assert.Equal(expected, thin.Truth.Thinned, 9);
        Assert.True(expected > 0.02, $"Only {expected:P1} is missing.");
        Assert.Equal(0, full.Truth.Thinned);

        // Nothing grows by falling.
        using Mat grown = new();
        Cv2.Compare(full.Mask, Scalar.All(0), grown, CmpTypes.EQ);
        using Mat more = new();
        thin.Mask.CopyTo(more, grown);
        Assert.Equal(0, Cv2.CountNonZero(more));
    }

    [Theory]
    [MemberData(nameof(AllHosts))]
    public void The_side_that_was_hit_is_the_worse_side(string host)
    {
        foreach (PlantSide side in (PlantSide[])[PlantSide.Left, PlantSide.Right])
        {
            PlantDamage damage = new() { Seed = 5, BrownShare = 0.15, YellowShare = 0.1, LostShare = 0.15, Side = side, SideStrength = 1 };
            using RenderedPlant plant = PlantRenderer.Render(Plain.Plant(damage, host));
            Assert.Equal(side == PlantSide.Left ? "left" : "right", plant.Truth.WorseSide);
        }
    }

    [Fact]
    public void The_worse_side_agrees_with_halves_counted_in_the_masks()
    {
        int sided = 0;
        foreach (int seed in Enumerable.Range(1, 10))
        {
            PlantSpec spec = PlantChooser.Choose(seed, Difficulty.Easy, 400);
            using RenderedPlant plant = PlantRenderer.Render(spec);
            using RenderedPlant full = PlantRenderer.Render(spec with { Damage = spec.Damage with { LostShare = 0 } });
            Rect box = Cv2.BoundingRect(full.Mask);
            double left = Harm(plant.Mask, full.Mask, Plain.Half(box, true));
            double right = Harm(plant.Mask, full.Mask, Plain.Half(box, false));
            double apart = Math.Abs(left - right);
            string expected = apart < 0.05 || apart < 0.5 * Math.Max(left, right) ? "none" : left > right ? "left" : "right";
            Assert.True(expected == plant.Truth.WorseSide, $"seed {seed}: {left:F3} left, {right:F3} right, told {plant.Truth.WorseSide}");
            sided += expected == "none" ? 0 : 1;
        }

        Assert.True(sided > 1, "No plant with a worse side was among them.");
    }

    [Fact]
    public void A_sound_plant_has_no_damage_and_no_worse_side()
    {
        using RenderedPlant plant = PlantRenderer.Render(Plain.Plant(new PlantDamage { Seed = 5 }));
        Assert.Equal(plant.Truth.FoliagePx, Plain.Count(plant.Mask, MaskCode.Sound));
        Assert.Equal(0, plant.Truth.Thinned);
        Assert.Equal("none", plant.Truth.WorseSide);
        Assert.All(plant.Truth.Sectors, sector => Assert.Equal(0, sector.Discoloured));
    }

    [Fact]
    public void Fall_colour_is_sound_and_told_as_its_own_share()
    {
        PlantSpec summer = Plain.Plant(new PlantDamage { Seed = 5 }, "burningBush");
        using RenderedPlant red = PlantRenderer.Render(summer with { FallShare = 1 });
        using RenderedPlant part = PlantRenderer.Render(summer with { FallShare = 0.5 });
        Assert.Equal(1, red.Truth.Fall, 9);
        Assert.InRange(part.Truth.Fall, 0.4, 0.6);
        Assert.Equal(red.Truth.FoliagePx, Plain.Count(red.Mask, MaskCode.Sound));
        using Mat photo = Cv2.ImDecode(red.Jpeg.ToArray(), ImreadModes.Color);
        Scalar mean = Cv2.Mean(photo, red.Mask);
        Assert.True(mean.Val2 > mean.Val1, $"red {mean.Val2:F0}, green {mean.Val1:F0}");
    }

    [Fact]
    public void Evergreens_ignore_fall_colour()
    {
        using RenderedPlant plant = PlantRenderer.Render(Plain.Plant(new PlantDamage { Seed = 5 }, "arborvitae") with { FallShare = 1 });
        Assert.Equal(0, plant.Truth.Fall);
    }

    [Fact]
    public void Fresh_growth_is_sound_and_told_as_its_own_share()
    {
        using RenderedPlant plant = PlantRenderer.Render(Plain.Plant(new PlantDamage { Seed = 5 }) with { Flush = 0.5 });
        Assert.InRange(plant.Truth.Fresh, 0.2, 0.7);
        Assert.Equal(plant.Truth.FoliagePx, Plain.Count(plant.Mask, MaskCode.Sound));
    }

    // Discoloured or missing pixels in one half, as a share of the foliage that the full plant has there.
    private static double Harm(Mat mask, Mat full, Rect half)
    {
        using Mat now = new(mask, half);
        using Mat before = new(full, half);
        double whole = Cv2.CountNonZero(before);
        return (Plain.Count(now, MaskCode.Yellowed) + Plain.Count(now, MaskCode.Browned) + whole - Cv2.CountNonZero(now)) / whole;
    }
}
