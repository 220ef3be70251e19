using System.Globalization;
using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Camera;
using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Rendering.Plants;

/// <summary>Draws descriptions of whole-plant photos by chance.</summary>
public static class PlantChooser
{
    /// <summary>Draws a photo of a plant from two to four metres.</summary>
    /// <param name="seed">The same seed and level give the same photo.</param>
    /// <param name="level">How hard it is to measure: neighbours, hedges behind, hard light.</param>
    /// <param name="longSidePx">Long side of the photo in pixels, 400 to 6000; 1600 is usual.</param>
    public static PlantSpec Choose(int seed, Difficulty level, int longSidePx = 1600)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(longSidePx, 400);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(longSidePx, 6000);
        Random random = new(seed);
        int width = longSidePx;
        int height = longSidePx * 3 / 4;
        double horizon = random.Between(0.45, 0.62);
        string name = level.ToString().ToLowerInvariant();
        double azimuth = random.Pick([random.Between(-60, 60), random.Between(120, 240)]);
        PlantSpec plant = new()
        {
            Name = string.Create(CultureInfo.InvariantCulture, $"plant-{name}-{seed:D6}"),
            Seed = 0,
            Difficulty = name,
            WidthPx = width,
            HeightPx = height,
            Host = "",
            HeightM = 1,
            WidthRatio = 1,
            PixelsPerM = 1,
            FootX = width * random.Between(0.44, 0.56),
            FootY = height * random.Between(0.86, 0.94),
            Colour = default,
            Place = new PlantPlace
            {
                Seed = random.Next(),
                Backdrop = level == Difficulty.Easy ? random.Pick([BackdropKind.Wall, BackdropKind.Sky]) : random.Pick([BackdropKind.Wall, BackdropKind.Sky, BackdropKind.Hedge]),
                Lawn = random.Hit(0.55),
                Horizon = horizon,
                Flowers = random.Hit(0.4) ? random.Next(5, 60) : 0,
                Label = random.Hit(0.3),
            },
            Light = new Lighting
            {
                AzimuthDegrees = azimuth,
                HeightDegrees = random.Between(30, 65),
                Hardness = level switch { Difficulty.Easy => random.Between(0.1, 0.35), Difficulty.Medium => random.Between(0.2, 0.6), _ => random.Between(0.35, 0.8) },
            },
            Camera = Camera(level, longSidePx / 1600.0, random),
        };
        plant = Fill(plant, random, 0.8);
        int neighbours = level switch { Difficulty.Easy => 0, Difficulty.Medium => random.Next(0, 2), _ => random.Next(1, 4) };
        return plant with
        {
            Damage = Damage(random),
            FallShare = PlantHabits.Named(plant.Host).Fall is not null && random.Hit(0.3) ? random.Between(0.1, 0.95) : 0,
            Flush = random.Hit(0.3) ? random.Between(0.1, 0.7) : 0,
            Neighbours = [.. Enumerable.Range(0, neighbours).Select(i => Fill(plant with { FootX = width * (i % 2 == 0 ? random.Between(-0.05, 0.12) : random.Between(0.88, 1.05)), FootY = height * (horizon + random.Between(0.08, 0.2)) }, random, 0.55))],
        };
    }

    /// <summary>Draws a photo of a plant with nothing wrong, but in fall colour where its kind has one, else flushing: what must never be called mites.</summary>
    /// <param name="seed">The same seed and level give the same photo.</param>
    /// <param name="level">See <see cref="Choose"/>.</param>
    /// <param name="longSidePx">Long side of the photo in pixels, 400 to 6000; 1600 is usual.</param>
    public static PlantSpec ChooseSeason(int seed, Difficulty level, int longSidePx = 1600)
    {
        PlantSpec plant = Choose(seed, level, longSidePx);
        Random random = new(seed ^ 0x5ea50);
        bool turns = PlantHabits.Named(plant.Host).Fall is not null;
        return plant with
        {
            Name = "season-" + plant.Name,
            Damage = new PlantDamage { Seed = plant.Damage.Seed },
            FallShare = turns ? random.Between(0.1, 0.95) : 0,
            Flush = turns ? 0 : random.Between(0.15, 0.7),
        };
    }

    private static PlantSpec Fill(PlantSpec plant, Random random, double part)
    {
        PlantHabit habit = random.Pick(PlantHabits.All);
        double heightM = random.Between(habit.HeightM.Low, habit.HeightM.High);
        double ratio = random.Between(habit.WidthRatio.Low, habit.WidthRatio.High);
        double fit = part * Math.Min(plant.HeightPx / heightM, 0.95 * plant.WidthPx / (heightM * ratio));
        return plant with
        {
            Seed = random.Next(),
            Host = habit.Name,
            HeightM = heightM,
            WidthRatio = ratio,
            PixelsPerM = fit * random.Between(0.85, 1),
            Colour = (random.Hit(0.6) ? habit.Colours[0] : random.Pick(habit.Colours)).Move(2 * random.Normal(), 1.2 * random.Normal(), 2 * random.Normal()),
        };
    }

    private static PlantDamage Damage(Random random)
    {
        int seed = random.Next();
        if (random.Hit(0.25))
        {
            return new PlantDamage { Seed = seed };
        }

        bool side = random.Hit(0.5);
        return new PlantDamage
        {
            Seed = seed,
            YellowShare = random.Hit(0.75) ? random.Between(0.03, 0.35) : 0,
            BrownShare = random.Hit(0.6) ? random.Between(0.02, 0.3) : 0,
            LostShare = random.Hit(0.5) ? random.Between(0.03, 0.45) : 0,
            Side = side ? random.Pick([PlantSide.Left, PlantSide.Right]) : PlantSide.None,
            SideStrength = side ? random.Between(0.35, 1) : 0,
            LowStrength = random.Between(0, 0.8),
        };
    }

    private static CameraSpec Camera(Difficulty level, double scale, Random random) => new()
    {
        Seed = random.Next(),
        Exposure = random.LogNormal(1.05, level == Difficulty.Hard ? 0.18 : 0.08),
        Red = 1 + (random.Normal() * (level == Difficulty.Easy ? 0.02 : 0.045)),
        Blue = 1 + (random.Normal() * (level == Difficulty.Easy ? 0.02 : 0.045)),
        BlurPx = scale * random.Between(0.5, level == Difficulty.Hard ? 1.2 : 0.85),
        Noise = random.LogNormal(level == Difficulty.Hard ? 0.008 : 0.004, 0.4),
        Sharpening = random.Between(0.1, 0.9),
        Contrast = random.Between(0.05, 0.3),
        Saturation = random.Between(0.95, 1.2),
        Vignette = random.Between(0, 0.15),
        JpegQuality = level == Difficulty.Hard ? random.Next(72, 92) : random.Next(82, 95),
        Taken = new DateTimeOffset(2026, 4, 1, 9, 0, 0, TimeSpan.FromHours(-4)).AddMinutes((random.Next(0, 210) * 1440) + random.Next(0, 480)),
    };
}
