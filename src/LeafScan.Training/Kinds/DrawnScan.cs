using LeafScan.Leaves.Kinds;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Kinds;

/// <summary>Draws leaves as a flat-bed scanner gives them: one even colour or nearly so, on an even ground, without a shadow.</summary>
internal static class DrawnScan
{
    /// <summary>Draws one leaf: pointed at both ends or round, lying any way, with or without a stalk, marks and veins.</summary>
    public static KindExample Draw(int seed)
    {
        Random random = Chance.FromSeed(seed);
        Size size = random.Hit(0.5) ? new Size(480, 340) : new Size(340, 480);
        double white = random.Hit(0.8) ? random.Between(215, 255) : random.Between(0, 120);
        Mat picture = new(size, MatType.CV_8UC3, new Scalar(white * random.Between(0.97, 1), white * random.Between(0.98, 1), white));
        double length = random.Between(0.35, 0.95) * Math.Max(size.Width, size.Height);
        double width = Math.Min(length * random.Between(0.25, 0.95), 0.9 * Math.Min(size.Width, size.Height));
        double turn = (size.Width > size.Height ? 0 : 90) + (random.Normal() * 15);
        Scalar colour = Colour(random);
        double light = random.Between(0.7, 1.3);
        Scalar line = new(colour.Val0 * light, colour.Val1 * light, colour.Val2 * light);
        Point[] outline = Outline(new Point2d(size.Width / 2.0, size.Height / 2.0), length, width, turn, random.Between(0.5, 1.3), out Point tip, out Point foot);
        Cv2.FillPoly(picture, [outline], colour, LineTypes.AntiAlias);
        if (random.Hit(0.6))
        {
            Cv2.Line(picture, tip, foot, line, random.Next(1, 4), LineTypes.AntiAlias);
        }

        Marks(picture, outline, random);
        Cv2.GaussianBlur(picture, picture, default, random.Between(0.4, 1.2));
        DrawnUnusable.Noise(picture, random, random.Between(0, 4));
        return new KindExample(PhotoKind.Leaf, "drawn", $"scan-{seed}", picture);
    }

    private static Scalar Colour(Random random)
    {
        double light = random.Between(0.5, 1.4);
        return random.Hit(0.75)
            ? new Scalar(light * random.Between(30, 80), light * random.Between(95, 140), light * random.Between(45, 110))
            : new Scalar(light * random.Between(30, 80), light * random.Between(50, 150), light * random.Between(110, 170));
    }

    private static Point[] Outline(Point2d middle, double length, double width, double degrees, double blunt, out Point tip, out Point foot)
    {
        double cos = Math.Cos(degrees * Math.PI / 180);
        double sin = Math.Sin(degrees * Math.PI / 180);
        Point At(double along, double across) =>
            new((int)(middle.X + (along * cos) - (across * sin)), (int)(middle.Y + (along * sin) + (across * cos)));
        Point[] outline = new Point[160];
        for (int i = 0; i < outline.Length; i++)
        {
            double angle = 2 * Math.PI * i / outline.Length;
            double across = Math.Sign(Math.Sin(angle)) * Math.Pow(Math.Abs(Math.Sin(angle)), blunt);
            outline[i] = At(length / 2 * Math.Cos(angle), width / 2 * across);
        }

        tip = At(length / 2, 0);
        foot = At(-length / 2, 0);
        return outline;
    }

    private static void Marks(Mat picture, Point[] outline, Random random)
    {
        int count = random.Hit(0.5) ? 0 : random.Next(5, 300);
        Scalar pale = new(random.Between(90, 150), random.Between(150, 210), random.Between(140, 200));
        Scalar brown = new(random.Between(20, 60), random.Between(45, 85), random.Between(80, 130));
        Rect box = Cv2.BoundingRect(outline);
        for (int i = 0; i < count; i++)
        {
            Point at = new(box.X + random.Next(box.Width), box.Y + random.Next(box.Height));
            if (Cv2.PointPolygonTest(outline, at, false) > 0)
            {
                bool large = random.Hit(0.05);
                Cv2.Circle(picture, at, large ? random.Next(5, 30) : random.Next(1, 4), large ? brown : pale, -1, LineTypes.AntiAlias);
            }
        }
    }
}
