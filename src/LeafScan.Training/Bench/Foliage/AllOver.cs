using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Camera;
using LeafScan.Training.Rendering.Plants;
using LeafScan.Training.Rendering.Support;
using LeafScan.Training.Rendering.Twigs;

namespace LeafScan.Training.Bench.Foliage;

/// <summary>
/// One twig or plant twice: in health, and later with hardly any green left. The later photo has another light and camera. This is what a
/// healthy photo is for: from the later photo alone nobody can tell whether the plant was ever green.
/// </summary>
internal static class AllOver
{
    // How much one camera's white differs from another's, relative: common practice, no source.
    private const double OtherWhite = 0.05;

    /// <summary>Both photos of a twig; the later one has half of its leaves or more yellow or dead, mostly all.</summary>
    public static (TwigSpec Healthy, TwigSpec Later) Twig(int seed, Difficulty level, int longSidePx)
    {
        TwigSpec drawn = TwigChooser.Choose(seed, level, longSidePx) with { NewGrowthMm = 0 };
        Random random = new(seed ^ 0x0a110e);
        double all = Math.Min(1, random.Between(0.5, 1.5));
        double yellow = all * random.Between(0.5, 0.95);
        return (
            drawn with { Name = drawn.Name + "-healthy", Damage = new TwigDamage { Seed = drawn.Damage.Seed } },
            drawn with { Name = drawn.Name + "-later", Camera = Other(drawn.Camera, random), Damage = new TwigDamage { Seed = drawn.Damage.Seed, YellowShare = yellow, BrownShare = all - yellow } });
    }

    /// <summary>Both photos of a plant; the later one has half of its tufts or more yellow or dead, mostly all.</summary>
    public static (PlantSpec Healthy, PlantSpec Later) Plant(int seed, Difficulty level, int longSidePx)
    {
        PlantSpec drawn = PlantChooser.Choose(seed, level, longSidePx) with { Flush = 0, FallShare = 0 };
        Random random = new(seed ^ 0x0a110e);
        double all = Math.Min(1, random.Between(0.5, 1.5));
        double yellow = all * random.Between(0.5, 0.95);
        return (
            drawn with { Name = drawn.Name + "-healthy", Damage = new PlantDamage { Seed = drawn.Damage.Seed } },
            drawn with { Name = drawn.Name + "-later", Camera = Other(drawn.Camera, random), Damage = new PlantDamage { Seed = drawn.Damage.Seed, YellowShare = yellow, BrownShare = all - yellow } });
    }

    private static CameraSpec Other(CameraSpec camera, Random random) => camera with
    {
        Seed = random.Next(),
        Red = camera.Red * (1 + (OtherWhite * random.Normal())),
        Blue = camera.Blue * (1 + (OtherWhite * random.Normal())),
    };
}
