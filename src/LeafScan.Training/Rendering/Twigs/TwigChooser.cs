using System.Globalization;
using LeafScan.Training.Rendering.Backgrounds;
using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Camera;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Twigs;

/// <summary>Draws descriptions of twig photos by chance.</summary>
public static class TwigChooser
{
    /// <summary>Draws a twig photo.</summary>
    /// <param name="seed">The same seed and level give the same photo.</param>
    /// <param name="level">How hard it is to measure.</param>
    /// <param name="longSidePx">Long side of the photo in pixels, 400 to 6000; 1600 is usual.</param>
    public static TwigSpec Choose(int seed, Difficulty level, int longSidePx = 1600)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(longSidePx, 400);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(longSidePx, 6000);
        Random random = new(seed);
        Conifer host = random.Pick(Conifers.All);
        double lengthMm = host.LeafMm.High * random.Between(5.5, 8);
        if (host.Foliage == FoliageKind.Scale)
        {
            lengthMm = random.Between(45, 75);
        }

        string name = level.ToString().ToLowerInvariant();
        int own = random.Next();
        double angle = random.Pick([0.0, 180]) + random.Between(-22, 22);
        Rect2d bounds = TwigSkeleton.Bounds(TwigSkeleton.Grow(host, lengthMm, new Random(own)), angle * Math.PI / 180, 0.6 * host.LeafMm.High);
        double fit = Math.Min(longSidePx / bounds.Width, longSidePx * 0.75 / bounds.Height);
        return new TwigSpec
        {
            Name = string.Create(CultureInfo.InvariantCulture, $"twig-{name}-{seed:D6}"),
            Seed = own,
            Difficulty = name,
            WidthPx = longSidePx,
            HeightPx = longSidePx * 3 / 4,
            Host = host.Name,
            LengthMm = lengthMm,
            PixelsPerMm = fit * (level == Difficulty.Hard ? random.Between(0.55, 0.95) : random.Between(0.75, 0.95)),
            Colour = (random.Hit(0.6) ? host.Colours[0] : random.Pick(host.Colours)).Move(2 * random.Normal(), 1.2 * random.Normal(), 2 * random.Normal()),
            AngleDegrees = angle,
            NewGrowthMm = random.Hit(0.4) ? random.Between(4, 14) : 0,
            HeightMm = random.Between(2, 8),
            Damage = Damage(level, random),
            Background = Background(level, random),
            Light = Light(level, random),
            Camera = Camera(level, longSidePx / 1600.0, random),
        };
    }

    /// <summary>Draws a twig with nothing wrong and with new growth: what must never be called mites.</summary>
    /// <param name="seed">The same seed and level give the same photo.</param>
    /// <param name="level">How hard it is to measure.</param>
    /// <param name="longSidePx">Long side of the photo in pixels, 400 to 6000; 1600 is usual.</param>
    public static TwigSpec ChooseSeason(int seed, Difficulty level, int longSidePx = 1600)
    {
        TwigSpec twig = Choose(seed, level, longSidePx);
        return twig with
        {
            Name = "season-" + twig.Name,
            Damage = new TwigDamage { Seed = twig.Damage.Seed },
            NewGrowthMm = new Random(seed ^ 0x5ea50).Between(4, 14),
        };
    }

    private static TwigDamage Damage(Difficulty level, Random random)
    {
        int seed = random.Next();
        double kind = random.NextDouble();
        if (kind < 0.2)
        {
            return new TwigDamage { Seed = seed };
        }

        if (kind < 0.4)
        {
            // Not mites.
            TwigPattern pattern = random.Pick([TwigPattern.Tips, TwigPattern.Bands]);
            return new TwigDamage { Seed = seed, Pattern = pattern, BrownShare = random.Between(0.08, 0.5), LostShare = random.Hit(0.3) ? random.Between(0, 0.15) : 0 };
        }

        return new TwigDamage
        {
            Seed = seed,
            SpecksPerMm = random.Between(0.15, 1.9),
            SpeckMm = level == Difficulty.Easy ? random.Between(0.18, 0.28) : random.Between(0.12, 0.25),
            SpeckStrength = level == Difficulty.Hard ? random.Between(0.45, 0.85) : random.Between(0.6, 0.95),
            YellowShare = random.Hit(0.45) ? random.Between(0.03, 0.4) : 0,
            BrownShare = random.Hit(0.35) ? random.Between(0.02, 0.3) : 0,
            LostShare = random.Hit(0.3) ? random.Between(0.03, 0.4) : 0,
        };
    }

    private static BackgroundSpec Background(Difficulty level, Random random)
    {
        double off = level switch { Difficulty.Easy => 0, Difficulty.Medium => 0.3, _ => 0.7 };
        BackgroundKind kind = random.Hit(off) ? random.Pick([BackgroundKind.Foliage, BackgroundKind.Mulch, BackgroundKind.Soil]) : BackgroundKind.Sheet;
        return new BackgroundSpec { Seed = random.Next(), Kind = kind, Shading = random.Between(0.03, 0.3), BlurPx = random.Between(2, 9) };
    }

    private static Lighting Light(Difficulty level, Random random) => new()
    {
        AzimuthDegrees = random.Between(0, 360),
        HeightDegrees = random.Between(35, 70),
        Hardness = level switch { Difficulty.Easy => random.Between(0.1, 0.35), Difficulty.Medium => random.Between(0.2, 0.6), _ => random.Between(0.35, 0.85) },
        Shine = level == Difficulty.Easy ? random.Between(0, 0.4) : random.Between(0.2, 1),
    };

    private static CameraSpec Camera(Difficulty level, double scale, Random random) => new()
    {
        Seed = random.Next(),
        Exposure = random.LogNormal(0.98, level == Difficulty.Hard ? 0.18 : 0.07),
        Red = 1 + (random.Normal() * (level == Difficulty.Easy ? 0.02 : 0.045)),
        Blue = 1 + (random.Normal() * (level == Difficulty.Easy ? 0.02 : 0.045)),
        BlurPx = scale * (level == Difficulty.Hard ? random.Between(0.6, 1.5) : random.Between(0.45, 0.9)),
        Noise = random.LogNormal(level == Difficulty.Hard ? 0.009 : 0.004, 0.4),
        Sharpening = random.Between(0, 0.9),
        Contrast = random.Between(0.05, 0.3),
        Saturation = random.Between(0.95, 1.2),
        Vignette = random.Between(0, 0.15),
        JpegQuality = level == Difficulty.Hard ? random.Next(70, 92) : random.Next(82, 95),
        Taken = new DateTimeOffset(2026, 4, 1, 9, 0, 0, TimeSpan.FromHours(-4)).AddMinutes((random.Next(0, 200) * 1440) + random.Next(0, 480)),
    };
}
