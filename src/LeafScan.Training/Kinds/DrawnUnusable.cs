using LeafScan.Leaves.Kinds;
using LeafScan.Training.Rendering.Backgrounds;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Kinds;

/// <summary>Draws photos that nobody can use: shots by mistake, and good photos spoilt beyond use.</summary>
internal static class DrawnUnusable
{
    /// <summary>Ways of drawing from nothing; a good photo can be spoilt in three more (<see cref="Spoil"/>).</summary>
    private const int Ways = 5;

    /// <summary>Draws one photo taken by mistake: ground, a plain wall, sky, a floor, things lying about.</summary>
    public static KindExample Draw(int seed)
    {
        Random random = Chance.FromSeed(seed);
        Size size = random.Hit(0.5) ? new Size(480, 360) : new Size(360, 480);
        Mat picture = (seed % Ways) switch
        {
            0 => DrawnGround.Paint(random.Pick([BackgroundKind.Soil, BackgroundKind.Mulch, BackgroundKind.Gravel]), size, random),
            1 => DrawnGround.Plain(size, Dull(random), random),
            2 => Sky(size, random),
            3 => Floor(size, random),
            _ => Things(size, random),
        };
        return new KindExample(PhotoKind.Unusable, "drawn", $"unusable-{seed}", picture);
    }

    /// <summary>Spoils a photo beyond use: smeared, black or burnt out.</summary>
    public static KindExample Spoil(KindExample good, int seed)
    {
        Random random = Chance.FromSeed(seed);
        Mat picture = new();
        double side = Math.Max(good.Pixels.Cols, good.Pixels.Rows);
        switch (seed % 3)
        {
            case 0:
                Cv2.GaussianBlur(good.Pixels, picture, default, side * random.Between(0.05, 0.16));
                break;
            case 1:
                good.Pixels.ConvertTo(picture, -1, random.Between(0, 0.06), random.Between(0, 6));
                Noise(picture, random, random.Between(0, 5));
                break;
            default:
                good.Pixels.ConvertTo(picture, -1, random.Between(4, 10), random.Between(120, 220));
                break;
        }

        return new KindExample(PhotoKind.Unusable, good.Source + ", spoilt", $"{good.Name}-spoilt-{seed}", picture);
    }

    /// <summary>Adds noise to a picture.</summary>
    public static void Noise(Mat picture, Random random, double spread)
    {
        using Mat noise = new(picture.Size(), MatType.CV_16SC3);
        Cv2.SetTheRNG((ulong)random.Next());
        Cv2.Randn(noise, Scalar.All(0), Scalar.All(spread));
        Cv2.Add(picture, noise, picture, null, (int)MatType.CV_8U);
    }

    // Anything but green.
    private static Scalar Dull(Random random)
    {
        double grey = random.Between(25, 240);
        return new Scalar(grey * random.Between(0.6, 1.15), grey * random.Between(0.8, 1), grey * random.Between(0.9, 1.2));
    }

    private static Mat Sky(Size size, Random random)
    {
        Mat sky = DrawnGround.Plain(size, new Scalar(random.Between(190, 245), random.Between(150, 215), random.Between(90, 200)), random);
        using Mat cloud = SmoothNoise.Make(size, size.Width / 2.0, random, 5, 0.55);
        using Mat mask = new();
        cloud.ConvertTo(mask, MatType.CV_8U, 90, random.Between(-60, 90));
        using Mat white = new(size, MatType.CV_8UC3, Scalar.All(random.Between(215, 252)));
        DrawnGround.Lay(sky, white, mask);
        return sky;
    }

    private static Mat Floor(Size size, Random random)
    {
        Scalar colour = Dull(random);
        Mat floor = DrawnGround.Plain(size, colour, random);
        double darker = random.Between(0.4, 0.85);
        Scalar joint = new(colour.Val0 * darker, colour.Val1 * darker, colour.Val2 * darker);
        int step = random.Next(30, 160);
        bool planks = random.Hit(0.5);
        int width = random.Next(1, 5);
        for (int at = random.Next(step); at < Math.Max(size.Width, size.Height); at += step)
        {
            Cv2.Line(floor, new Point(at, 0), new Point(at + random.Next(-6, 7), size.Height), joint, width, LineTypes.AntiAlias);
            if (!planks)
            {
                Cv2.Line(floor, new Point(0, at), new Point(size.Width, at + random.Next(-6, 7)), joint, width, LineTypes.AntiAlias);
            }
        }

        return floor;
    }

    private static Mat Things(Size size, Random random)
    {
        Mat picture = DrawnGround.Plain(size, Dull(random), random);
        int count = random.Next(1, 6);
        for (int i = 0; i < count; i++)
        {
            Point at = new(random.Next(size.Width), random.Next(size.Height));
            Size axes = new(random.Next(25, size.Width / 3), random.Next(15, size.Height / 4));
            double angle = random.Between(0, 180);
            if (random.Hit(0.5))
            {
                Cv2.Ellipse(picture, at, axes, angle, 0, 360, Dull(random), -1, LineTypes.AntiAlias);
            }
            else
            {
                Point[] corners = [.. new RotatedRect(new Point2f(at.X, at.Y), new Size2f(axes.Width, axes.Height), (float)angle).Points().Select(p => p.ToPoint())];
                Cv2.FillConvexPoly(picture, corners, Dull(random), LineTypes.AntiAlias);
            }
        }

        Cv2.GaussianBlur(picture, picture, default, random.Between(0.5, 3));
        Noise(picture, random, random.Between(1, 6));
        return picture;
    }
}
