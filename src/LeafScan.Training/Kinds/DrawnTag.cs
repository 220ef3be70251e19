using LeafScan.Leaves.Kinds;
using LeafScan.Training.Rendering.Backgrounds;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Kinds;

/// <summary>Draws plant tags: a pale label with a square of black modules and lines of text, on soil, among foliage, on wood or in a hand.</summary>
internal static class DrawnTag
{
    private static readonly BackgroundKind[] Grounds = [BackgroundKind.Soil, BackgroundKind.Mulch, BackgroundKind.Gravel, BackgroundKind.Foliage, BackgroundKind.Foliage];

    /// <summary>Draws one photo of a tag that takes up a good part of it.</summary>
    public static KindExample Draw(int seed)
    {
        Random random = Chance.FromSeed(seed);
        Size size = random.Hit(0.5) ? new Size(480, 360) : new Size(360, 480);
        Mat picture = random.Hit(0.75)
            ? DrawnGround.Paint(random.Pick(Grounds), size, random)
            : DrawnGround.Plain(size, new Scalar(random.Between(60, 190), random.Between(80, 200), random.Between(90, 220)), random);
        if (random.Hit(0.3))
        {
            Fingers(picture, random);
        }

        Put(picture, random, random.Between(0.5, 0.95), 0.12);
        return new KindExample(PhotoKind.Tag, "drawn", $"tag-{seed}", picture);
    }

    /// <summary>Puts a tag into a picture.</summary>
    /// <param name="picture">8-bit B, G, R; changed.</param>
    /// <param name="random">Source of chance.</param>
    /// <param name="length">Long side of the tag as a share of the picture's short side.</param>
    /// <param name="away">How far from the middle, as a share of the picture's size, at most.</param>
    public static void Put(Mat picture, Random random, double length, double away)
    {
        using Mat tag = Label(random);
        double scale = length * Math.Min(picture.Cols, picture.Rows) / tag.Cols;
        double angle = random.Hit(0.5) ? random.Normal() * 12 : random.Between(0, 360);
        Point2f centre = new(
            (float)(picture.Cols * (0.5 + random.Between(-away, away))), (float)(picture.Rows * (0.5 + random.Between(-away, away))));
        Point2f[] to = new RotatedRect(centre, new Size2f((float)(tag.Cols * scale), (float)(tag.Rows * scale)), (float)angle).Points();
        for (int i = 0; i < to.Length; i++)
        {
            // Seen a little from the side.
            to[i] += new Point2f((float)(random.Normal() * 0.03 * tag.Cols * scale), (float)(random.Normal() * 0.03 * tag.Cols * scale));
        }

        Point2f[] from = [new(0, tag.Rows), new(0, 0), new(tag.Cols, 0), new(tag.Cols, tag.Rows)];
        using Mat map = Cv2.GetPerspectiveTransform(from, to);
        using Mat warped = new();
        using Mat mask = new();
        using Mat full = new(tag.Size(), MatType.CV_8UC1, Scalar.All(255));
        Cv2.WarpPerspective(tag, warped, map, picture.Size(), InterpolationFlags.Area);
        Cv2.WarpPerspective(full, mask, map, picture.Size(), InterpolationFlags.Linear);
        DrawnGround.Lay(picture, warped, mask);
    }

    private static Mat Label(Random random)
    {
        double white = random.Between(175, 252);
        Size size = new(480, (int)random.Between(200, 420));
        Mat tag = DrawnGround.Plain(size, new Scalar(white * random.Between(0.88, 1), white, white * random.Between(0.95, 1.02)), random);
        int side = (int)(size.Height * random.Between(0.5, 0.85));
        int modules = random.Pick([21, 25, 29, 33]);
        int module = Math.Max(3, side / modules);
        int left = random.Next(10, 40);
        int top = (size.Height - (module * modules)) / 2;
        Scalar ink = Scalar.All(random.Between(5, 60));
        Modules(tag, new Point(left, top), modules, module, ink, random);
        Text(tag, left + (module * modules) + 14, ink, random);
        return tag;
    }

    // Looks like a QR code from afar (ISO/IEC 18004 has three finder squares); it says nothing.
    private static void Modules(Mat tag, Point at, int modules, int module, Scalar ink, Random random)
    {
        for (int y = 0; y < modules; y++)
        {
            for (int x = 0; x < modules; x++)
            {
                if (random.Hit(0.5))
                {
                    Cv2.Rectangle(tag, new Rect(at.X + (x * module), at.Y + (y * module), module, module), ink, -1);
                }
            }
        }

        foreach ((int x, int y) in new[] { (0, 0), (modules - 7, 0), (0, modules - 7) })
        {
            Point corner = new(at.X + (x * module), at.Y + (y * module));
            Square(tag, corner, 0, 7, module, ink);
            Square(tag, corner, 1, 5, module, Scalar.All(235));
            Square(tag, corner, 2, 3, module, ink);
        }
    }

    private static void Square(Mat tag, Point corner, int inset, int modules, int module, Scalar colour)
        => Cv2.Rectangle(tag, new Rect(corner.X + (inset * module), corner.Y + (inset * module), modules * module, modules * module), colour, -1);

    private static void Text(Mat tag, int left, Scalar ink, Random random)
    {
        int lines = random.Next(1, 5);
        for (int i = 0; i < lines; i++)
        {
            string word = string.Concat(Enumerable.Range(0, random.Next(3, 11)).Select(_ => (char)random.Next('A', 'Z' + 1)));
            double height = i == 0 ? random.Between(1, 2) : random.Between(0.5, 0.9);
            Cv2.PutText(tag, word, new Point(left, (i + 1) * tag.Rows / (lines + 1)), HersheyFonts.HersheySimplex, height, ink, i == 0 ? 3 : 2, LineTypes.AntiAlias);
        }
    }

    private static void Fingers(Mat picture, Random random)
    {
        double light = random.Between(0.45, 1);
        Scalar skin = new(light * random.Between(120, 150), light * random.Between(150, 180), light * random.Between(205, 235));
        for (int i = 0; i < 3; i++)
        {
            Point at = new(random.Next(picture.Cols), picture.Rows - random.Next(0, picture.Rows / 3));
            Cv2.Ellipse(picture, at, new Size(picture.Cols / 9, picture.Rows / 3), random.Between(-40, 40), 0, 360, skin, -1, LineTypes.AntiAlias);
        }
    }
}
