using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Rendering.TapSheets;

/// <summary>
/// Scatters what a tap brings down. Sizes of mites are from extension pages (0.2 to 0.5 mm); speeds have no source: a mite
/// walks 0.05 to 0.6 mm a second here, a predator three to eight times as fast, and about one mite in six rests.
/// </summary>
internal static class TapScatter
{
    public static List<TapThing> Scatter(Difficulty level, double wideMm, double highMm, double seconds, Random random)
    {
        // Dirt per area, so that a larger photo of the same sheet holds more of it.
        double area = wideMm * highMm / 10_000;
        double dirt = random.LogNormal(level switch { Difficulty.Easy => 60, Difficulty.Medium => 150, _ => 300 }, 0.5) * area;
        int mites = random.Hit(0.25) ? 0 : (int)Math.Round(random.LogNormal(level == Difficulty.Easy ? 8 : 14, 0.8));
        int predators = random.Hit(0.35) ? random.Next(1, 4) : 0;
        double wind = level == Difficulty.Hard && random.Hit(0.3) ? random.Between(0.3, 3) : 0;
        double windAngle = random.Between(0, 2 * Math.PI);
        LabColour[] kinds = [new(62, -3, 26), new(38, 2, 13), new(44, 20, 24), new(56, -8, 30)];
        LabColour own = random.Pick(kinds);
        List<TapThing> things = [];
        for (int i = 0; i < dirt; i++)
        {
            things.Add(Dirt(random.Split(), wind, windAngle));
        }

        for (int i = 0; i < mites; i++)
        {
            things.Add(Mite(random.Split(), own, seconds));
        }

        for (int i = 0; i < predators; i++)
        {
            things.Add(Predator(random.Split(), seconds));
        }

        return [.. things.Select(thing => thing with { X = wideMm * (random.NextDouble() - 0.5), Y = highMm * (random.NextDouble() - 0.5) })];
    }

    private static TapThing Mite(Random random, LabColour own, double seconds)
    {
        double length = Math.Clamp(0.36 + (0.08 * random.Normal()), 0.2, 0.5);
        bool rests = random.Hit(0.17);
        double way = rests ? 0 : Math.Clamp(random.LogNormal(0.25, 0.6), 0.05, 0.6) * seconds;
        return Walk(random, way) with
        {
            Kind = TapKind.Mite,
            LengthMm = length,
            WidthRatio = random.Between(0.55, 0.72),
            Colour = own.Move(4 * random.Normal(), 2 * random.Normal(), 3 * random.Normal()),
        };
    }

    private static TapThing Predator(Random random, double seconds) => Walk(random, random.Between(1.2, 3.5) * seconds) with
    {
        Kind = TapKind.Predator,
        LengthMm = random.Between(0.35, 0.5),
        WidthRatio = random.Between(0.5, 0.62),
        Colour = new LabColour(66, 14, 34).Move(5 * random.Normal(), 4 * random.Normal(), 5 * random.Normal()),
    };

    private static TapThing Walk(Random random, double way)
    {
        double heading = random.Between(0, 360);
        double turn = way > 0 ? 35 * random.Normal() : 0;
        double course = (heading + (turn / 2)) * Math.PI / 180;
        return Blank(random) with { AngleDegrees = heading, TurnDegrees = turn, MoveX = way * Math.Cos(course), MoveY = way * Math.Sin(course) };
    }

    private static TapThing Dirt(Random random, double wind, double windAngle)
    {
        TapThing thing = Blank(random) with { AngleDegrees = random.Between(0, 360) };
        double kind = random.NextDouble();
        if (kind < 0.5)
        {
            // Light dust is what a breath of wind moves, all of it nearly alike.
            bool blown = wind > 0 && random.Hit(0.6);
            double way = blown ? wind * random.LogNormal(1, 0.08) : 0;
            double course = windAngle + (blown ? 0.06 * random.Normal() : 0);
            return thing with
            {
                Kind = TapKind.Dust,
                LengthMm = Math.Clamp(random.LogNormal(0.13, 0.5), 0.04, 0.5),
                WidthRatio = random.Between(0.5, 1),
                Colour = new LabColour(random.Between(35, 75), random.Between(0, 5), random.Between(4, 18)),
                MoveX = way * Math.Cos(course),
                MoveY = way * Math.Sin(course),
            };
        }

        return kind switch
        {
            < 0.72 => thing with { Kind = TapKind.Grain, LengthMm = Math.Clamp(random.LogNormal(0.25, 0.45), 0.08, 0.9), WidthRatio = random.Between(0.55, 1), Colour = new LabColour(random.Between(18, 50), random.Between(3, 12), random.Between(8, 22)) },
            < 0.8 => thing with { Kind = TapKind.Skin, LengthMm = random.Between(0.22, 0.45), WidthRatio = random.Between(0.45, 0.7), Colour = new LabColour(random.Between(78, 90), 0, random.Between(3, 9)) },
            < 0.88 => thing with { Kind = TapKind.Fibre, LengthMm = random.Between(0.8, 4), WidthRatio = random.Between(0.012, 0.03), Colour = random.Pick([new LabColour(45, 0, 0), new LabColour(40, 2, -20), new LabColour(70, 2, 8)]) },
            _ => thing with { Kind = TapKind.PlantBit, LengthMm = Math.Clamp(random.LogNormal(0.8, 0.6), 0.3, 4), WidthRatio = random.Between(0.15, 0.5), Colour = random.Pick([new LabColour(42, -12, 24), new LabColour(40, 10, 24), new LabColour(58, 2, 30)]) },
        };
    }

    private static TapThing Blank(Random random) => new() { Kind = TapKind.Dust, Seed = random.Next(), X = 0, Y = 0, LengthMm = 0.1, WidthRatio = 1, Colour = new LabColour(50, 0, 0) };
}
