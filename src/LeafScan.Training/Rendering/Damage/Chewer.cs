using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Damage;

/// <summary>Eats the blade: scalloped bites from the margin and ragged holes. Pieces that would fall off are eaten too.</summary>
internal static class Chewer
{
    public static void Bite(BladeDamage damage, BladeShape shape, Mat whole, DamageSpec spec, Random random)
    {
        double area = Cv2.CountNonZero(whole);
        double wanted = spec.BittenShare * area;
        for (int meal = 0; meal < 60 && Eaten(damage, whole) < 0.97 * wanted; meal++)
        {
            Meal(damage, shape, wanted - Eaten(damage, whole), random.Split());
        }

        KeepMidrib(damage, shape);
        for (int hole = 0; hole < spec.Holes; hole++)
        {
            Point2d centre = Places.Inside(shape, whole, random);
            double radius = random.LogNormal(spec.HoleMm, 0.35) * shape.PixelsPerMm;
            Erase(damage, new Blob(centre, radius, 0.05, 0.35, random));
            Erase(damage, new Blob(new Point2d(centre.X + (radius * random.Normal() * 0.7), centre.Y + (radius * random.Normal() * 0.7)), radius * random.Between(0.4, 0.9), 0.05, 0.3, random));
        }

        if (spec.BittenShare > 0 || spec.Holes > 0)
        {
            DropLoosePieces(damage, shape, whole);
        }
    }

    // A caterpillar on the margin swings its head: each meal is a few bays side by side, with the marks of single bites.
    // A meal draws the same places whatever is left to eat, so that a leaf chewed further keeps its older bites.
    private static void Meal(BladeDamage damage, BladeShape shape, double leftPx, Random random)
    {
        double mm = shape.PixelsPerMm;
        int side = random.Hit(0.5) ? -1 : 1;
        double along = random.Between(0.1, 0.93);
        double most = Math.Sqrt(2.2 * leftPx / Math.PI);
        int bays = random.Next(1, 4);
        for (int bay = 0; bay < bays; bay++)
        {
            double radius = Math.Min(Math.Clamp(random.LogNormal(2.4, 0.45), 0.8, 7) * mm, 0.6 * shape.WidthAt(along, side) + mm);
            radius = Math.Max(0.4 * mm, Math.Min(radius, most / Math.Sqrt(bays)));
            Point2d margin = shape.MarginAt(along, side);
            Point2d centre = new(margin.X, margin.Y - (side * radius * random.Between(-0.25, 0.45)));
            Erase(damage, new Blob(centre, radius, 0.05, 0.22, random));
            for (int bite = 0; bite < 14; bite++)
            {
                double angle = random.Between(0, 2 * Math.PI);
                Point2d mouth = new(centre.X + (radius * Math.Cos(angle)), centre.Y + (radius * Math.Sin(angle)));
                Erase(damage, new Blob(mouth, Math.Min(0.5 * radius, random.Between(0.25, 0.6) * mm), 0.05, 0.2, random));
            }

            along = Math.Clamp(along + (random.Between(0.9, 1.5) * radius / shape.LengthPx), 0.05, 0.97);
        }
    }

    private static double Eaten(BladeDamage damage, Mat whole)
    {
        using Mat both = new();
        Cv2.BitwiseAnd(damage.Missing, whole, both);
        return Cv2.CountNonZero(both);
    }

    private static void Erase(BladeDamage damage, Blob blob)
        => SpeckPainter.Each(damage.Missing.Size(), blob, (x, y, strength) =>
        {
            if (strength >= 0.5)
            {
                Pixels.Bytes(damage.Missing, y)[x] = 255;
            }
        });

    // Most caterpillars leave the tough midrib; near the base it holds the leaf.
    private static void KeepMidrib(BladeDamage damage, BladeShape shape)
        => Cv2.Line(
            damage.Missing,
            new Point(0, (int)shape.CentreY),
            new Point((int)shape.X(0.85), (int)shape.CentreY),
            Scalar.All(0),
            Math.Max(2, (int)(1.3 * shape.PixelsPerMm)));

    private static void DropLoosePieces(BladeDamage damage, BladeShape shape, Mat whole)
    {
        using Mat left = new();
        using Mat eaten = new();
        Cv2.BitwiseNot(damage.Missing, eaten);
        Cv2.BitwiseAnd(whole, eaten, left);
        using Mat labels = new();
        Cv2.ConnectedComponents(left, labels, PixelConnectivity.Connectivity4);
        int held = 0;
        for (double along = 0.02; along < 0.5 && held == 0; along += 0.02)
        {
            held = Pixels.Ints(labels, (int)shape.CentreY)[(int)shape.X(along)];
        }

        int rows = labels.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<int> row = Pixels.Ints(labels, y);
            Span<byte> missing = Pixels.Bytes(damage.Missing, y);
            for (int x = 0; x < row.Length; x++)
            {
                if (row[x] != 0 && row[x] != held)
                {
                    missing[x] = 255;
                }
            }
        }
    }
}
