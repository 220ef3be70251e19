using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Rendering.Plants;

/// <summary>A tuft of foliage of a crown.</summary>
/// <param name="X">m to the right of the plant's middle.</param>
/// <param name="Height">0 at the ground, 1 at the top.</param>
/// <param name="Z">m towards the viewer.</param>
/// <param name="Around">Its place across the crown: -1 left edge, 1 right edge.</param>
/// <param name="Out">1 at the surface of the crown, smaller inside.</param>
/// <param name="SizeM">Diameter in m.</param>
/// <param name="Tone">Own deviation of lightness, about -1..1.</param>
/// <param name="Seed">Seed of its own leaves.</param>
internal sealed record Tuft(double X, double Height, double Z, double Around, double Out, double SizeM, double Tone, int Seed);

/// <summary>Grows the tufts of a crown: most near its surface, the rest inside, more where the crown is wide.</summary>
internal static class Crown
{
    public static List<Tuft> Grow(PlantSpec spec, PlantHabit habit)
    {
        Random random = new(spec.Seed);
        double radius = spec.HeightM * spec.WidthRatio / 2;
        (double Turn, double Height, double Size)[] lumps = [.. Enumerable.Range(0, 14).Select(_ => (random.Between(0, 2 * Math.PI), random.NextDouble(), random.Between(-1, 1)))];

        // Enough tufts to cover the visible half of the surface several times.
        double area = 2 * radius * spec.HeightM;
        int count = (int)Math.Min(14_000, 11 * area / (habit.TuftM * habit.TuftM));
        List<Tuft> tufts = new(count);
        while (tufts.Count < count)
        {
            double height = random.NextDouble();
            double wide = habit.RadiusAt(height);
            if (random.NextDouble() > wide)
            {
                continue;
            }

            double turn = random.Between(-1.75, 1.75);
            double outer = random.Hit(0.72) ? 1 - Math.Abs(0.06 * random.Normal()) : random.Between(0.45, 0.95);
            double lump = 1 + (habit.Lumps * lumps.Sum(l => l.Size * Math.Exp(-(Math.Pow(Math.Sin((turn - l.Turn) / 2) / 0.25, 2) + Math.Pow((height - l.Height) / 0.16, 2)))));
            double reach = radius * wide * outer * lump;
            double lift = habit.Lumps * 0.25 * (lump - 1);
            tufts.Add(new Tuft(reach * Math.Sin(turn), Math.Clamp(height + lift, 0.01, 1.05), reach * Math.Cos(turn), Math.Sin(turn) * outer, outer, habit.TuftM * random.LogNormal(1, 0.2), random.Normal(), random.Next()));
        }

        return [.. tufts.OrderBy(t => t.Z)];
    }
}
