using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Backgrounds;
using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Camera;
using LeafScan.Training.Rendering.Damage;

namespace LeafScan.Training.Tests;

/// <summary>Plain scenes, so that a test shows only what matters to it.</summary>
internal static class Some
{
    public static SceneSpec FlatLeaf(int specks = 0, double speckMm = 0.6, DateTimeOffset? taken = null) => new()
    {
        Name = "flat",
        Difficulty = "easy",
        WidthPx = 640,
        HeightPx = 480,
        Background = new BackgroundSpec { Seed = 1 },
        Light = new Lighting { Hardness = 0.2, Shine = 0 },
        Camera = new CameraSpec { Seed = 2, Taken = taken, JpegQuality = 95 },
        Leaves =
        [
            new LeafSpec
            {
                Seed = 3, Host = "burningBush", LengthPx = 500, PixelsPerMm = 9, Colour = Hosts.BurningBush.Colours[0],
                CentreX = 320, CentreY = 240, Fold = 0, Damage = new DamageSpec { Seed = 4, Specks = specks, SpeckMm = speckMm },
            },
        ],
    };
}
