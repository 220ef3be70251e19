using LeafScan.Training.Rendering.Backgrounds;
using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Camera;
using LeafScan.Training.Rendering.LookAlikes;
using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Rendering;

/// <summary>How hard a scene is to measure.</summary>
public enum Difficulty
{
    /// <summary>One flat leaf on a sheet in soft light, sharp, large specks.</summary>
    Easy,

    /// <summary>One to three leaves, some shine, smaller specks; one in four not on a sheet; some drops, mines, shadows, hands.</summary>
    Medium,

    /// <summary>Hard light, glints, shadows, blur and noise, small specks; mostly not on a sheet; more drops, mines and hands.</summary>
    Hard,
}

/// <summary>Draws scene descriptions by chance.</summary>
public static class SceneChooser
{
    /// <summary>Draws a scene.</summary>
    /// <param name="seed">The same seed and level give the same scene.</param>
    /// <param name="level">How hard it is.</param>
    /// <param name="longSidePx">Long side of the photo in pixels, 400 to 6000; 1600 is usual.</param>
    public static SceneSpec Choose(int seed, Difficulty level, int longSidePx = 1600)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(longSidePx, 400);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(longSidePx, 6000);
        Random random = Chance.FromSeed(seed);
        Host host = random.Pick(Hosts.All);
        BackgroundSpec background = Background(level, random);
        Lighting light = Light(level, random);
        int width = longSidePx;
        int height = longSidePx * 3 / 4;
        bool sheet = background.Kind == BackgroundKind.Sheet;
        int leaves = host.Leaflets > 1 || level == Difficulty.Easy || !sheet || random.Hit(0.6) ? 1 : random.Next(2, 4);
        List<LeafSpec> blades = LeafLayout.Lay(host, leaves, level, width, height, random);
        string name = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{level.ToString().ToLowerInvariant()}-{seed:D6}");
        return SceneExtras.Add(new SceneSpec
        {
            Name = name,
            Seed = seed,
            Difficulty = level.ToString().ToLowerInvariant(),
            WidthPx = width,
            HeightPx = height,
            Leaves = blades,
            LeafOfBlade = host.Leaflets > 1 ? [.. blades.Select(_ => 0)] : [],
            Background = background,
            Light = light,
            Camera = Camera(level, longSidePx, random),
        }, level);
    }

    private static BackgroundSpec Background(Difficulty level, Random random)
    {
        double off = level switch { Difficulty.Easy => 0, Difficulty.Medium => 0.25, _ => 0.65 };
        BackgroundKind kind = random.Hit(off)
            ? random.Pick([BackgroundKind.Soil, BackgroundKind.Gravel, BackgroundKind.Mulch, BackgroundKind.Foliage])
            : BackgroundKind.Sheet;
        return new BackgroundSpec
        {
            Seed = random.Next(),
            Kind = kind,
            Shading = random.Between(0.03, level == Difficulty.Easy ? 0.15 : 0.4),
            BlurPx = kind == BackgroundKind.Foliage ? random.Between(3, 14) : random.Between(0, level == Difficulty.Hard ? 1 : 4),
        };
    }

    private static Lighting Light(Difficulty level, Random random) => new()
    {
        AzimuthDegrees = random.Between(0, 360),
        HeightDegrees = random.Between(28, 68),
        Hardness = level switch { Difficulty.Easy => random.Between(0.15, 0.45), Difficulty.Medium => random.Between(0.25, 0.75), _ => random.Between(0.4, 0.95) },
        Shine = level switch { Difficulty.Easy => random.Between(0.1, 0.7), Difficulty.Medium => random.Between(0.3, 1.1), _ => random.Between(0.4, 1.4) },
        ShineSlope = random.Between(0.05, 0.5),
        ShadowBand = level == Difficulty.Hard && random.Hit(0.35) ? random.Between(0.2, 0.55) : 0,
    };

    private static CameraSpec Camera(Difficulty level, int longSidePx, Random random)
    {
        double scale = longSidePx / 1600.0;
        return new CameraSpec
        {
            Seed = random.Next(),
            Exposure = level == Difficulty.Hard ? random.LogNormal(1.1, 0.25) : random.LogNormal(1.08, 0.1),
            Red = 1 + (random.Normal() * (level == Difficulty.Easy ? 0.02 : 0.05)),
            Blue = 1 + (random.Normal() * (level == Difficulty.Easy ? 0.02 : 0.05)),
            BlurPx = scale * (level switch { Difficulty.Easy => random.Between(0.45, 0.8), Difficulty.Medium => random.Between(0.5, 1.1), _ => random.Between(0.6, 1.7) }),
            Noise = random.LogNormal(level == Difficulty.Hard ? 0.014 : 0.006, 0.4),
            Sharpening = random.Between(0, level == Difficulty.Easy ? 0.5 : 1),
            Contrast = random.Between(0.02, 0.3),
            Saturation = random.Between(0.95, 1.2),
            Vignette = random.Between(0, 0.18),
            TiltX = random.Normal() * (level == Difficulty.Easy ? 2 : 7),
            TiltY = random.Normal() * (level == Difficulty.Easy ? 2 : 7),
            JpegQuality = level == Difficulty.Hard ? random.Next(68, 92) : random.Next(82, 95),
            Taken = new DateTimeOffset(2026, 5, 1, 9, 0, 0, TimeSpan.FromHours(-4)).AddMinutes(random.Next(0, 150) * 1440 + random.Next(0, 480)),
        };
    }
}
