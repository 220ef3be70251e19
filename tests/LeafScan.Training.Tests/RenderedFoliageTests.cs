using LeafScan.Training.Bench;
using LeafScan.Training.Bench.Foliage;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Plants;
using LeafScan.Training.Rendering.Twigs;

namespace LeafScan.Training.Tests;

/// <summary>Twigs and whole plants of known truth through the doors that every user goes through, small.</summary>
public sealed class RenderedFoliageTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("leafscan-foliage").FullName;

    [Fact]
    public void A_rendered_twig_with_yellow_needles_is_read_close_to_its_truth()
    {
        using (RenderedTwig twig = TwigRenderer.Render(TwigChooser.Choose(3012, Difficulty.Easy, 1000)))
        {
            TwigWriter.Write(twig, _folder);
        }

        FoliageScore score = FoliageScore.Of(Assert.Single(BenchRun.Cases([_folder], PhotoNumbers.All)), null, default);
        Assert.InRange(score.Reading!.Damage, score.Truth.Discoloured - 0.1, score.Truth.Discoloured + 0.1);
        Assert.InRange(score.OutlineIou, 0.8, 1);
        Assert.Null(score.Reading.Crown);
    }

    [Fact]
    public void A_rendered_plant_is_cut_from_its_surroundings_and_its_worst_side_named()
    {
        using (RenderedPlant plant = PlantRenderer.Render(PlantChooser.Choose(3015, Difficulty.Medium, 1000)))
        {
            PlantWriter.Write(plant, _folder);
        }

        FoliageScore score = FoliageScore.Of(Assert.Single(BenchRun.Cases([_folder], PhotoNumbers.All)), null, default);
        Assert.InRange(score.Reading!.Damage, score.Truth.Discoloured - 0.06, score.Truth.Discoloured + 0.06);
        Assert.InRange(score.OutlineIou, 0.9, 1);
        Assert.Equal((score.Truth.WorseSide, "right"), (score.Reading.Crown!.WorstSide, score.Truth.WorseSide));
    }

    public void Dispose() => Directory.Delete(_folder, true);
}
