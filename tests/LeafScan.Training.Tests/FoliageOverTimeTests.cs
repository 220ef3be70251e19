using LeafScan.Leaves.Views;
using LeafScan.Training.Bench.Foliage;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Plants;
using LeafScan.Training.Rendering.Twigs;

namespace LeafScan.Training.Tests;

/// <summary>Rendered plants of known truth twice: lined up, and in health and without green.</summary>
public sealed class FoliageOverTimeTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("leafscan-over-time").FullName;

    [Fact]
    public void A_plant_from_another_place_is_lined_up_and_its_change_is_near_the_truth()
    {
        using TwoViews two = TwoViews.Make(6405, Difficulty.Easy, true, 700, _folder, default);
        PlantChange change = two.Comparison!.Change!;
        Assert.All(
            change.Sectors.Join(two.Truth, said => (said.Side, said.Height), truth => (truth.Side, truth.Height), (said, truth) => (said, truth)),
            pair => Assert.InRange(pair.said.Discoloured!.Value, pair.truth.Discoloured!.Value - 0.15, pair.truth.Discoloured.Value + 0.15));
        Assert.NotNull(two.Comparison.Picture);
    }

    [Fact]
    public void An_unchanged_plant_from_another_place_is_the_same_in_every_part()
    {
        using TwoViews two = TwoViews.Make(6408, Difficulty.Easy, false, 700, _folder, default);
        Assert.All(two.Comparison!.Change!.Sectors, sector => Assert.Equal("same", sector.Word));
    }

    [Fact]
    public void The_later_photo_is_of_the_same_twig_and_plant_with_most_of_it_discoloured()
    {
        (TwigSpec healthy, TwigSpec later) = AllOver.Twig(6101, Difficulty.Easy, 800);
        Assert.Equal((healthy.Seed, healthy.Colour, healthy.Damage.Seed), (later.Seed, later.Colour, later.Damage.Seed));
        Assert.Equal(0, healthy.Damage.YellowShare + healthy.Damage.BrownShare);
        Assert.InRange(later.Damage.YellowShare + later.Damage.BrownShare, 0.5, 1);
        Assert.NotEqual(healthy.Camera.Red, later.Camera.Red);
        (PlantSpec sound, PlantSpec faded) = AllOver.Plant(6151, Difficulty.Easy, 800);
        Assert.Equal((sound.Seed, sound.Damage.Seed), (faded.Seed, faded.Damage.Seed));
        Assert.InRange(faded.Damage.YellowShare + faded.Damage.BrownShare, 0.5, 1);
    }

    public void Dispose() => Directory.Delete(_folder, true);
}
