using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Backgrounds;

/// <summary>Leaves behind the leaf: dark gaps below, plain pointed leaves on top, brighter towards the viewer. Meant to be blurred.</summary>
internal static class Foliage
{
    /// <summary>A hedge or shrub from further off: one plain leaf shape, all equally sharp.</summary>
    public static Mat Paint(Size photo, double mm, Random random)
    {
        Mat picture = Dark(photo);
        double length = random.Between(30, 60) * mm;
        int leaves = Count(photo, length);
        LabColour own = new(random.Between(34, 46), random.Between(-24, -14), random.Between(18, 32));
        for (int i = 0; i < leaves; i++)
        {
            Leaf(picture, length, own, (double)i / leaves, null, 0, random);
        }

        return picture;
    }

    /// <summary>The plant's own leaves close behind: of its own shape, with midribs, the farther the more out of focus.</summary>
    public static Mat Close(Size photo, double mm, Random random)
    {
        Mat picture = Dark(photo);
        double length = random.Between(30, 75) * mm;
        int leaves = Count(photo, length);
        LabColour own = new(random.Between(34, 50), random.Between(-24, -12), random.Between(12, 32));
        double belly = random.Between(0.45, 1.5);
        double rib = random.Between(0.1, 0.5);
        const int Depths = 4;
        for (int depth = 0; depth < Depths; depth++)
        {
            for (int i = depth * leaves / Depths; i < (depth + 1) * leaves / Depths; i++)
            {
                Leaf(picture, length, own, (double)i / leaves, belly, rib, random);
            }

            // What lies below what follows is a step further off.
            Cv2.GaussianBlur(picture, picture, default, Math.Max(0.6, 0.9 * mm * (Depths - 1 - depth)));
        }

        return picture;
    }

    private static Mat Dark(Size photo) => new(photo, MatType.CV_32FC3, new Scalar(0.01, 0.018, 0.012));

    private static int Count(Size photo, double length) => (int)Math.Clamp(9.0 * photo.Width * photo.Height / (length * length), 30, 900);

    private static void Leaf(Mat picture, double length, LabColour own, double rank, double? belly, double rib, Random random)
    {
        LabColour tone = own.Move(random.Between(-8, 8), random.Between(-3, 3), random.Between(-5, 5));
        LinearColour c = tone.Linear().Times(0.15 + (0.95 * rank * rank));
        Point2d centre = new(random.Between(-0.05, 1.05) * picture.Cols, random.Between(-0.05, 1.05) * picture.Rows);
        double angle = random.Between(0, 2 * Math.PI);
        double long1 = length * random.Between(0.6, 1.2);
        double wide = long1 * random.Between(0.18, 0.27);
        Half(picture, centre, angle, long1, wide, belly, c.Times(random.Between(0.8, 1.25)));
        Half(picture, centre, angle, long1, -wide, belly, c.Times(random.Between(0.55, 1)));
        if (rib > 0)
        {
            LinearColour line = c.Times(1 + (1.5 * rib));
            Point2d reach = new(0.5 * long1 * Math.Cos(angle), 0.5 * long1 * Math.Sin(angle));
            Cv2.Line(picture, Fixed(centre - reach), Fixed(centre + (reach * 0.9)), new Scalar(line.B, line.G, line.R), Math.Max(1, (int)(long1 / 45)), LineTypes.Link8, 4);
        }
    }

    private static void Half(Mat picture, Point2d centre, double angle, double length, double width, double? belly, LinearColour c)
    {
        Point[] corners = [.. Enumerable.Range(0, 17).Select(i =>
        {
            double t = i / 16.0;
            double x = (t - 0.5) * length;
            double shape = belly is { } power ? 1.9 * Math.Pow(t, 0.75 * power) * Math.Pow(1 - t, power) : 4 * t * (1 - t) * (1.2 - (0.4 * t));
            double y = width * shape;
            return new Point(
                16 * (centre.X + (x * Math.Cos(angle)) - (y * Math.Sin(angle))),
                16 * (centre.Y + (x * Math.Sin(angle)) + (y * Math.Cos(angle))));
        })];
        Cv2.FillPoly(picture, [corners], new Scalar(c.B, c.G, c.R), LineTypes.Link8, 4);
    }

    private static Point Fixed(Point2d place) => new(16 * place.X, 16 * place.Y);
}
