using System.Globalization;
using LeafScan.Training.Rendering.Backgrounds;
using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Camera;
using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Rendering.TapSheets;

/// <summary>Draws descriptions of tap sheets by chance.</summary>
public static class TapChooser
{
    // A twospotted mite is 0.25 to 0.5 mm long (PNW, Penn State, NC State AG-189).
    private const double UsualMiteMm = 0.4;

    /// <summary>Draws a pair of photos.</summary>
    /// <param name="seed">The same seed and level give the same pair.</param>
    /// <param name="level">easy: a mite of 0.4 mm is 6 to 9 pixels long; medium: 4 to 6; hard: 2.6 to 4.2, with more shake, shadow and blown dust.</param>
    /// <param name="longSidePx">Long side of the photos in pixels, 400 to 6000; 2000 is usual.</param>
    /// <param name="asked">What is asked for instead of being drawn; null for nothing.</param>
    public static TapSpec Choose(int seed, Difficulty level, int longSidePx = 2000, TapWish? asked = null)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(longSidePx, 400);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(longSidePx, 6000);
        Random random = new(seed);
        double mitePx = level switch { Difficulty.Easy => random.Between(6, 9), Difficulty.Medium => random.Between(4, 6), _ => random.Between(2.6, 4.2) };
        double mm = (asked?.MiteLengthPx ?? mitePx) / UsualMiteMm;
        int width = longSidePx;
        int height = longSidePx * 3 / 4;
        bool edges = random.Hit(level switch { Difficulty.Easy => 0, Difficulty.Medium => 0.25, _ => 0.5 });
        double sheetWide = width / mm * (edges ? random.Between(0.75, 0.95) : 2);
        double sheetHigh = height / mm * (edges ? random.Between(0.75, 0.95) : 2);
        double seconds = Math.Round(random.Between(3, 12), 1);
        DateTimeOffset taken = new DateTimeOffset(2026, 5, 1, 9, 0, 0, TimeSpan.FromHours(-4)).AddMinutes((random.Next(0, 150) * 1440) + random.Next(0, 480));
        string name = level.ToString().ToLowerInvariant();
        CameraSpec camera = Camera(level, longSidePx / 2000.0, taken, random);
        bool shadow = level != Difficulty.Easy && random.Hit(0.35);
        TapSpec spec = new()
        {
            Name = string.Create(CultureInfo.InvariantCulture, $"tap-{name}-{seed:D6}"),
            Seed = seed,
            Difficulty = name,
            WidthPx = width,
            HeightPx = height,
            PixelsPerMm = mm,
            SecondsBetween = seconds,
            SheetWidthMm = sheetWide,
            SheetHeightMm = sheetHigh,
            Fold = level == Difficulty.Hard && random.Hit(0.3) ? random.Between(0.02, 0.12) : 0,
            Things = TapScatter.Scatter(level, Math.Min(sheetWide, 0.98 * width / mm), Math.Min(sheetHigh, 0.98 * height / mm), seconds, random),
            Background = new BackgroundSpec
            {
                Seed = random.Next(),
                Kind = edges ? random.Pick([BackgroundKind.Soil, BackgroundKind.Mulch, BackgroundKind.Foliage]) : BackgroundKind.Sheet,
                Shading = random.Between(0.02, level == Difficulty.Easy ? 0.1 : 0.3),
                BlurPx = random.Between(1, 5),
            },
            Light = new Lighting
            {
                AzimuthDegrees = random.Between(0, 360),
                HeightDegrees = random.Between(35, 70),
                Hardness = level == Difficulty.Easy ? random.Between(0.1, 0.35) : random.Between(0.2, 0.8),
            },
            First = View(level, width, camera, shadow, 0.2, random),
            Second = View(level, width, camera with { Seed = random.Next(), Taken = taken.AddSeconds(Math.Round(seconds)), BlurPx = camera.BlurPx * random.Between(0.85, 1.3), Exposure = camera.Exposure * random.LogNormal(1, 0.03) }, shadow, 1, random),
        };
        spec = TapTroubles.Put(spec, asked?.Trouble ?? TapTrouble.None, new Random(seed));
        return asked?.NoneAlive == true ? spec with { Things = [.. spec.Things.Where(thing => thing.Kind is not (TapKind.Mite or TapKind.Predator))] } : spec;
    }

    // The first photo is the frame of reference; the hand moves before the second.
    private static TapView View(Difficulty level, double width, CameraSpec camera, bool shadow, double shake, Random random)
    {
        double reach = shake * (level switch { Difficulty.Easy => 0.006, Difficulty.Medium => 0.015, _ => 0.03 });
        return new TapView
        {
            ShiftXPx = reach * width * random.Normal(),
            ShiftYPx = reach * width * random.Normal(),
            TurnDegrees = 60 * reach * random.Normal(),
            Zoom = 1 + (reach * random.Normal()),
            LeanX = 1.2 * reach * random.Normal(),
            LeanY = 1.2 * reach * random.Normal(),
            Shadow = shadow ? random.Between(0.15, 0.5) : 0,
            ShadowPlace = random.Between(0, 0.8),
            Camera = camera,
        };
    }

    private static CameraSpec Camera(Difficulty level, double scale, DateTimeOffset taken, Random random) => new()
    {
        Seed = random.Next(),
        Exposure = random.LogNormal(0.95, 0.08),
        Red = 1 + (0.03 * random.Normal()),
        Blue = 1 + (0.03 * random.Normal()),
        BlurPx = Math.Min(scale, 1.2) * (level switch { Difficulty.Easy => random.Between(0.5, 0.9), Difficulty.Medium => random.Between(0.5, 1), _ => random.Between(0.6, 1.2) }),
        Noise = random.LogNormal(level == Difficulty.Hard ? 0.007 : 0.004, 0.3),
        Sharpening = random.Between(0.1, 0.9),
        Contrast = random.Between(0.05, 0.25),
        Vignette = random.Between(0, 0.15),
        JpegQuality = level == Difficulty.Hard ? random.Next(78, 93) : random.Next(86, 95),
        Taken = taken,
    };
}
