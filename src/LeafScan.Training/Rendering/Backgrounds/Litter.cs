using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Backgrounds;

/// <summary>Straw, stalks and bits of dead leaves that lie about on soil.</summary>
internal static class Litter
{
    public static void Strew(Mat picture, double mm, Random random)
    {
        double frame = picture.Cols * (double)picture.Rows / (mm * mm);
        int straws = (int)Math.Clamp(frame / 1000 * random.LogNormal(2, 0.9), 0, 150);
        for (int i = 0; i < straws; i++)
        {
            Straw(picture, mm, random);
        }
    }

    private static void Straw(Mat picture, double mm, Random random)
    {
        LinearColour c = new LabColour(random.Between(45, 74), random.Between(1, 8), random.Between(10, 26)).Linear();
        double course = random.Between(0, 2 * Math.PI);
        double curl = 0.1 * random.Normal();
        double length = random.LogNormal(14, 0.7) * mm;
        int width = Math.Max(1, (int)(random.LogNormal(0.55, 0.4) * mm));
        Point2d at = new(random.Between(0, picture.Cols), random.Between(0, picture.Rows));
        List<Point> line = [Fixed(at)];
        for (int step = 0; step < 24; step++)
        {
            at = new Point2d(at.X + (length / 24 * Math.Cos(course)), at.Y + (length / 24 * Math.Sin(course)));
            course += (0.35 * curl) + (0.03 * random.Normal());
            line.Add(Fixed(at));
        }

        // Its shadow, then a round stalk: dark flanks, a lighter middle.
        Stroke(picture, [.. line.Select(p => p + new Point(6 * width, 12 * width))], new Scalar(0.012, 0.014, 0.02), width);
        foreach ((double part, double lit) in ((double, double)[])[(1, 0.5), (0.72, 0.8), (0.35, 1.05)])
        {
            Stroke(picture, line, new Scalar(c.B * lit, c.G * lit, c.R * lit), Math.Max(1, (int)(part * width)));
        }
    }

    private static Point Fixed(Point2d place) => new(16 * place.X, 16 * place.Y);

    private static void Stroke(Mat picture, List<Point> line, Scalar colour, int width)
        => Cv2.Polylines(picture, [line], false, colour, width, LineTypes.Link8, 4);
}
