using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Backgrounds;

/// <summary>Leaves behind the leaf: dark gaps below, plain pointed leaves on top, brighter towards the viewer. Meant to be blurred.</summary>
internal static class Foliage
{
    public static Mat Paint(Size photo, double mm, Random random)
    {
        Mat picture = new(photo, MatType.CV_32FC3, new Scalar(0.01, 0.018, 0.012));
        double length = random.Between(30, 60) * mm;
        int leaves = (int)Math.Clamp(9.0 * photo.Width * photo.Height / (length * length), 30, 900);
        LabColour own = new(random.Between(34, 46), random.Between(-24, -14), random.Between(18, 32));
        for (int i = 0; i < leaves; i++)
        {
            double rank = (double)i / leaves;
            LabColour tone = own.Move(random.Between(-8, 8), random.Between(-3, 3), random.Between(-5, 5));
            LinearColour c = tone.Linear().Times(0.15 + (0.95 * rank * rank));
            Point2d centre = new(random.Between(-0.05, 1.05) * photo.Width, random.Between(-0.05, 1.05) * photo.Height);
            double angle = random.Between(0, 2 * Math.PI);
            double long1 = length * random.Between(0.6, 1.2);
            double wide = long1 * random.Between(0.18, 0.27);
            Half(picture, centre, angle, long1, wide, c.Times(random.Between(0.8, 1.25)));
            Half(picture, centre, angle, long1, -wide, c.Times(random.Between(0.55, 1)));
        }

        return picture;
    }

    private static void Half(Mat picture, Point2d centre, double angle, double length, double width, LinearColour c)
    {
        Point[] corners = [.. Enumerable.Range(0, 17).Select(i =>
        {
            double t = i / 16.0;
            double x = (t - 0.5) * length;
            double y = width * 4 * t * (1 - t) * (1.2 - (0.4 * t));
            return new Point(
                16 * (centre.X + (x * Math.Cos(angle)) - (y * Math.Sin(angle))),
                16 * (centre.Y + (x * Math.Sin(angle)) + (y * Math.Cos(angle))));
        })];
        Cv2.FillPoly(picture, [corners], new Scalar(c.B, c.G, c.R), LineTypes.Link8, 4);
    }
}
