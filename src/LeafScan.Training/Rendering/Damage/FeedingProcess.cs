using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Damage;

/// <summary>
/// Where mites feed: a few colonies along midrib and side veins; from each, bouts in which one animal empties cells on a
/// short walk. Our own model of what stippled leaves look like; bouts lie denser near the veins and later ones overlap.
/// Lace bugs feed longer and wider.
/// </summary>
internal static class FeedingProcess
{
    /// <summary>Specks in the order of feeding, inside the outline; the first n of a longer list are the list of n.</summary>
    public static IEnumerable<Speck> Feed(BladeShape shape, Venation veins, Mat whole, DamageSpec spec, Random random)
    {
        List<Point2d> colonies = [.. Enumerable.Range(0, random.Next(4, 9)).Select(_ => Colony(shape, veins, random))];
        double spread = shape.LengthPx * random.Between(0.06, 0.13);
        bool wide = spec.SpeckCause == SpeckCause.LaceBug;
        if (wide)
        {
            spread *= 1.7;
        }

        double middle = spec.SpeckMm * shape.PixelsPerMm;
        double stray = random.Between(0.08, 0.25);
        while (true)
        {
            bool alone = random.Hit(stray);
            Point2d colony = random.Pick(colonies);
            Point2d at = alone
                ? new Point2d(shape.X(random.NextDouble()), shape.CentreY + (shape.HalfWidthPx * random.Between(-1, 1)))
                : new Point2d(colony.X + (1.5 * spread * random.Normal()), colony.Y + (spread * random.Normal()));
            int bites = alone ? random.Next(1, 4) : random.Next(wide ? 8 : 3, wide ? 40 : 16);
            double course = random.Between(0, 2 * Math.PI);
            double vigour = random.Between(0.55, 1);
            for (int i = 0; i < bites; i++)
            {
                double diameter = Math.Clamp(random.LogNormal(middle, 0.28), 0.45 * middle, 2 * middle);
                double strength = Math.Clamp(spec.SpeckStrength * vigour * random.Between(0.7, 1.1), 0.15, 1);
                course += 1.9 * random.Normal();
                double step = diameter * random.LogNormal(1.9, 0.5);
                at = new Point2d(at.X + (step * Math.Cos(course)), at.Y + (step * Math.Sin(course)));
                if (Inside(whole, at))
                {
                    yield return new Speck(at.X, at.Y, diameter, strength);
                }
            }
        }
    }

    private static Point2d Colony(BladeShape shape, Venation veins, Random random)
    {
        if (veins.SideVeins.Count == 0 || random.Hit(0.45))
        {
            return new Point2d(shape.X(random.Between(0.05, 0.8)), shape.CentreY + (0.12 * shape.HalfWidthPx * random.Normal()));
        }

        Point2d[] vein = random.Pick(veins.SideVeins);
        return vein[random.Next((int)(0.8 * vein.Length))];
    }

    private static bool Inside(Mat whole, Point2d at)
        => at.X >= 0 && at.Y >= 0 && at.X < whole.Cols && at.Y < whole.Rows && Pixels.Bytes(whole, (int)at.Y)[(int)at.X] > 0;
}
