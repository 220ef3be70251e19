using LeafScan.Leaves.Kinds;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Plants;
using LeafScan.Training.Rendering.TapSheets;
using LeafScan.Training.Rendering.Twigs;
using OpenCvSharp;

namespace LeafScan.Training.Kinds;

/// <summary>Renders the kinds for which there is a renderer, a third at each level of difficulty.</summary>
internal static class RenderedKinds
{
    private const int SidePx = 480;

    /// <summary>Renders one picture.</summary>
    /// <param name="kind">Leaf, twig, plant or tap.</param>
    /// <param name="seed">Seed of the scene.</param>
    public static KindExample Render(PhotoKind kind, int seed)
    {
        Difficulty level = (Difficulty)(seed % 3);
        using Mat whole = Cv2.ImDecode(Jpeg(kind, seed, level), ImreadModes.Color);
        return new KindExample(kind, "rendered", $"{kind.Name()}-{level.ToString().ToLowerInvariant()}-{seed}", whole.Clone());
    }

    private static byte[] Jpeg(PhotoKind kind, int seed, Difficulty level)
    {
        switch (kind)
        {
            case PhotoKind.Leaf:
                using (RenderedScene scene = SceneRenderer.Render(SceneChooser.Choose(seed, level, SidePx)))
                {
                    return scene.Jpeg.ToArray();
                }

            case PhotoKind.Twig:
                using (RenderedTwig twig = TwigRenderer.Render(TwigChooser.Choose(seed, level, SidePx)))
                {
                    return twig.Jpeg.ToArray();
                }

            case PhotoKind.Plant:
                using (RenderedPlant plant = PlantRenderer.Render(PlantChooser.Choose(seed, level, SidePx)))
                {
                    return plant.Jpeg.ToArray();
                }

            case PhotoKind.Tap:
                return TapRenderer.Render(TapChooser.Choose(seed, level, SidePx)).First.ToArray();

            default:
                throw new ArgumentOutOfRangeException(nameof(kind), kind, "There is no renderer for this kind.");
        }
    }
}
