using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Damage;
using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Rendering;

/// <summary>Lays leaves of one host into a frame.</summary>
internal static class LeafLayout
{
    public static List<LeafSpec> Lay(Host host, int leaves, Difficulty level, int width, int height, Random random)
    {
        Photos.Colour.LabColour tone = random.Hit(0.65) ? host.Colours[0] : random.Pick(host.Colours);
        if (host.Leaflets > 1)
        {
            return Compound(host, tone, level, width, height, random);
        }

        List<LeafSpec> laid = [];
        for (int i = 0; i < leaves; i++)
        {
            // Side by side, each in its own strip of the frame.
            double strip = (double)width / leaves;
            double ratio = (host.WidthRatio.Low + host.WidthRatio.High) / 2;
            double angle = leaves == 1 ? random.Between(-180, 180) : random.Pick([-90.0, 90.0]) + random.Between(-12, 12);
            double turn = angle * Math.PI / 180;
            double wide = Math.Abs(Math.Cos(turn)) + (ratio * Math.Abs(Math.Sin(turn)));
            double high = Math.Abs(Math.Sin(turn)) + (ratio * Math.Abs(Math.Cos(turn)));
            double fit = Math.Min(strip / wide, height / high);
            double part = level == Difficulty.Hard ? random.Between(0.45, 0.85) : random.Between(0.62, 0.85);
            double length = fit * part;
            double free = 1 - part;
            double mm = random.Between(host.LengthMm.Low, host.LengthMm.High);
            laid.Add(Leaf(host, tone, level, length, length / mm, random) with
            {
                CentreX = (strip * (i + 0.5)) + (strip * 0.35 * free * random.Between(-1, 1)),
                CentreY = (height * 0.5) + (height * 0.35 * free * random.Between(-1, 1)),
                AngleDegrees = angle,
            });
        }

        return laid;
    }

    private static List<LeafSpec> Compound(Host host, Photos.Colour.LabColour tone, Difficulty level, int width, int height, Random random)
    {
        double direction = random.Pick([0.0, 180]) + random.Between(-15, 15);
        double turn = direction * Math.PI / 180;
        double length = Math.Min(width * 0.31, height * 0.39) * random.Between(0.85, 1);
        double pixelsPerMm = length / random.Between(host.LengthMm.Low, host.LengthMm.High);
        List<LeafSpec> laid = [];
        LeafSpec first = Leaf(host, tone, level, length, pixelsPerMm, random);

        // Pairs from the base to the tip, then the end leaflet; the common stalk runs along the direction.
        (double Along, double Side)[] seats = [(-0.62, -1), (-0.62, 1), (0.08, -1), (0.08, 1), (0.3, 0)];
        foreach ((double along, double side) in seats)
        {
            double own = length * (side == 0 ? 1.08 : random.Between(0.8, 0.95));
            double splay = side * random.Between(52, 66);
            double a = (direction + splay) * Math.PI / 180;
            double x = (width / 2.0) + (along * length * Math.Cos(turn)) + (0.56 * own * Math.Cos(a));
            double y = (height / 2.0) + (along * length * Math.Sin(turn)) + (0.56 * own * Math.Sin(a));
            laid.Add(Leaf(host, tone, level, own, pixelsPerMm, random) with
            {
                CentreX = x,
                CentreY = y,
                AngleDegrees = direction + splay,
                StalkMm = side == 0 ? 1.45 * length / pixelsPerMm : 3,
                Colour = first.Colour,
                Damage = Likewise(first.Damage, random),
            });
        }

        return laid;
    }

    // Leaflets of one leaf suffer the same things, each in its own measure.
    private static DamageSpec Likewise(DamageSpec damage, Random random) => damage with
    {
        Seed = random.Next(),
        Specks = (int)(damage.Specks * random.Between(0.3, 1.5)),
        YellowShare = Math.Min(0.6, damage.YellowShare * random.Between(0.3, 1.6)),
        BittenShare = random.Hit(0.5) ? damage.BittenShare : 0,
        Holes = random.Hit(0.5) ? damage.Holes : 0,
        Spots = random.Next(damage.Spots + 1),
    };

    private static LeafSpec Leaf(Host host, Photos.Colour.LabColour tone, Difficulty level, double length, double pixelsPerMm, Random random) => new()
    {
        Seed = random.Next(),
        Host = host.Name,
        LengthPx = length,
        PixelsPerMm = pixelsPerMm,
        CentreX = 0,
        CentreY = 0,
        Colour = tone.Move(3 + (random.Normal() * 4), random.Normal() * 1.5, random.Normal() * 2.5),
        Bend = random.Normal() * 0.03,
        Fold = level == Difficulty.Hard ? random.Between(0.05, 0.42) : random.Between(0.03, 0.22),
        Waves = level switch { Difficulty.Easy => random.Between(0.06, 0.22), Difficulty.Medium => random.Between(0.08, 0.32), _ => random.Between(0.12, 0.45) },
        Mottle = level == Difficulty.Easy ? random.Between(0.15, 0.6) : random.Between(0.2, 1),
        StalkMm = random.Between(1, 8),
        HeightMm = level == Difficulty.Hard ? random.Between(0.5, 6) : random.Between(0.3, 2.5),
        Damage = DamageChooser.Choose(level, pixelsPerMm, host.LengthMm.High * host.LengthMm.High * host.WidthRatio.High, random),
    };
}
