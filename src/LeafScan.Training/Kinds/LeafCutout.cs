using LeafScan.Leaves.Kinds;
using LeafScan.Training.Rendering.Backgrounds;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Kinds;

/// <summary>
/// A real leaf with its mask (NAME.jpg beside NAME.mask.png), laid into pictures: alone on many grounds, as a close-up, and
/// many times over as the crown of a plant, so that real tissue is not a sign of the kind leaf. Owns its pictures.
/// </summary>
internal sealed class LeafCutout : IDisposable
{
    private const int SidePx = 480;

    private LeafCutout(string name, Mat pixels, Mat mask) => (Name, Pixels, Mask) = (name, pixels, mask);

    /// <summary>Name of the photo.</summary>
    public string Name { get; }

    private Mat Pixels { get; }

    private Mat Mask { get; }

    /// <summary>Reads the cut-outs of a folder; none when no photo there has a mask.</summary>
    public static List<LeafCutout> Read(string folder)
    {
        List<LeafCutout> all = [];
        foreach (string maskFile in Directory.EnumerateFiles(folder, "*.mask.png").Order(StringComparer.Ordinal))
        {
            string stem = maskFile[..^".mask.png".Length];
            using Mat pixels = Cv2.ImRead(stem + ".jpg");
            using Mat mask = Cv2.ImRead(maskFile, ImreadModes.Grayscale);
            if (pixels.Empty() || mask.Size() != pixels.Size())
            {
                continue;
            }

            Cv2.Threshold(mask, mask, 0, 255, ThresholdTypes.Binary);
            Rect box = Cv2.BoundingRect(mask);
            if (box.Width < 8 || box.Height < 8)
            {
                continue;
            }

            double factor = SidePx / (double)Math.Max(box.Width, box.Height);
            Mat small = new();
            Mat smallMask = new();
            using (Mat part = new(pixels, box))
            using (Mat partMask = new(mask, box))
            {
                Cv2.Resize(part, small, default, factor, factor, InterpolationFlags.Area);
                Cv2.Resize(partMask, smallMask, small.Size(), 0, 0, InterpolationFlags.Area);
            }

            all.Add(new LeafCutout(Path.GetFileName(stem), small, smallMask));
        }

        return all;
    }

    /// <summary>The leaf on a ground, 15 to 95 % of the frame long.</summary>
    public KindExample OnGround(Random random)
    {
        Size size = random.Hit(0.5) ? new Size(SidePx, 360) : new Size(360, SidePx);
        double grey = random.Hit(0.2) ? random.Between(0, 30) : random.Between(60, 225);
        Mat picture = random.Next(7) switch
        {
            // A scanner's ground has no grain at all.
            0 => new Mat(size, MatType.CV_8UC3, Scalar.All(random.Hit(0.8) ? random.Between(225, 255) : random.Between(0, 30))),
            1 or 2 => DrawnGround.Paint(BackgroundKind.Sheet, size, random),
            3 or 4 => DrawnGround.Plain(size, new Scalar(grey * random.Between(0.8, 1.1), grey, grey * random.Between(0.95, 1.1)), random),
            _ => DrawnGround.Paint(random.Pick([BackgroundKind.Foliage, BackgroundKind.Soil, BackgroundKind.Mulch, BackgroundKind.Gravel]), size, random),
        };
        double length = 360 * (random.Hit(0.25) ? random.Between(0.2, 0.4) : random.Between(0.4, 0.95));
        Point2d at = new(size.Width * random.Between(0.4, 0.6), size.Height * random.Between(0.4, 0.6));
        double turn = random.Between(0, 360);
        Shadow(picture, at + (new Point2d(random.Normal(), random.Normal()) * (0.06 * length)), length, turn, random);
        Put(picture, at, length, turn, 1);
        return new KindExample(PhotoKind.Leaf, "cut-out on a ground", Name, picture);
    }

    /// <summary>A piece from inside the leaf, filling the frame.</summary>
    public KindExample CloseUp(Random random)
    {
        using Mat depth = new();
        Cv2.DistanceTransform(Mask, depth, DistanceTypes.L2, DistanceTransformMasks.Mask5);
        Cv2.MinMaxLoc(depth, out _, out double most, out _, out Point at);
        int half = Math.Max(8, (int)(most * random.Between(0.45, 0.9)));
        Rect inside = new Rect(at.X - half, at.Y - half, 2 * half, 2 * half) & new Rect(default, Pixels.Size());
        using Mat part = new(Pixels, inside);
        Mat picture = new();
        Cv2.Resize(part, picture, new Size(320, 320), 0, 0, InterpolationFlags.Cubic);
        return new KindExample(PhotoKind.Leaf, "cut-out, close-up", Name, picture);
    }

    /// <summary>A plant whose crown is made of small copies of real leaves.</summary>
    public static KindExample Crown(IReadOnlyList<LeafCutout> leaves, int seed)
    {
        Random random = Chance.FromSeed(seed);
        Size size = random.Hit(0.5) ? new Size(SidePx, 360) : new Size(360, SidePx);
        Mat picture = DrawnGround.Paint(random.Pick([BackgroundKind.Soil, BackgroundKind.Mulch, BackgroundKind.Gravel]), size, random);
        int horizon = (int)(size.Height * random.Between(0.3, 0.75));
        using (Mat wall = DrawnGround.Plain(new Size(size.Width, horizon), new Scalar(random.Between(110, 245), random.Between(110, 230), random.Between(110, 225)), random))
        using (Mat back = new(picture, new Rect(0, 0, size.Width, horizon)))
        {
            wall.CopyTo(back);
        }

        LeafCutout leaf = random.Pick(leaves);
        double wide = random.Between(0.25, 0.45) * size.Width;
        double high = random.Between(0.28, 0.45) * size.Height;
        double leafPx = random.Between(0.05, 0.11) * Math.Min(size.Width, size.Height);
        int count = (int)Math.Clamp(5 * wide * high / (leafPx * leafPx), 60, 500);
        for (int i = 0; i < count; i++)
        {
            // From the inside outwards, the inside in shade.
            double out01 = Math.Sqrt((i + 1.0) / count) * random.Between(0.6, 1);
            double around = random.Between(0, 2 * Math.PI);
            Point2d at = new((size.Width / 2.0) + (wide * out01 * Math.Cos(around)), (size.Height / 2.0) + (high * out01 * Math.Sin(around)));
            leaf.Put(picture, at, leafPx * random.Between(0.6, 1.2), random.Between(0, 360), 0.35 + (0.65 * out01));
        }

        return new KindExample(PhotoKind.Plant, "crown of cut-outs", $"{leaf.Name}-{seed}", picture);
    }

    public void Dispose()
    {
        Pixels.Dispose();
        Mask.Dispose();
    }

    private void Shadow(Mat picture, Point2d at, double longSidePx, double degrees, Random random)
    {
        if (random.Hit(0.35))
        {
            return;
        }

        using Mat dark = picture * random.Between(0.3, 0.75);
        using Mat soft = new();
        using Mat cover = new(picture.Size(), MatType.CV_8UC1, Scalar.All(0));
        using Mat turn = Cv2.GetRotationMatrix2D(new Point2f(Mask.Cols / 2f, Mask.Rows / 2f), degrees, longSidePx / Math.Max(Mask.Cols, Mask.Rows));
        turn.Set(0, 2, turn.Get<double>(0, 2) + at.X - (Mask.Cols / 2.0));
        turn.Set(1, 2, turn.Get<double>(1, 2) + at.Y - (Mask.Rows / 2.0));
        Cv2.WarpAffine(Mask, cover, turn, picture.Size(), InterpolationFlags.Area);
        Cv2.GaussianBlur(cover, soft, default, random.Between(0.6, 8));
        DrawnGround.Lay(picture, dark, soft);
    }

    private void Put(Mat picture, Point2d at, double longSidePx, double degrees, double light)
    {
        double scale = longSidePx / Math.Max(Pixels.Cols, Pixels.Rows);
        int side = (int)Math.Ceiling(longSidePx * 1.5);
        Rect box = new Rect((int)(at.X - (side / 2.0)), (int)(at.Y - (side / 2.0)), side, side) & new Rect(default, picture.Size());
        if (box.Width < 3 || box.Height < 3)
        {
            return;
        }

        using Mat turn = Cv2.GetRotationMatrix2D(new Point2f(Pixels.Cols / 2f, Pixels.Rows / 2f), degrees, scale);
        turn.Set(0, 2, turn.Get<double>(0, 2) + at.X - box.X - (Pixels.Cols / 2.0));
        turn.Set(1, 2, turn.Get<double>(1, 2) + at.Y - box.Y - (Pixels.Rows / 2.0));
        using Mat leaf = new();
        using Mat cover = new();
        Cv2.WarpAffine(Pixels, leaf, turn, box.Size, InterpolationFlags.Area, BorderTypes.Reflect);
        Cv2.WarpAffine(Mask, cover, turn, box.Size, InterpolationFlags.Area);
        leaf.ConvertTo(leaf, -1, light);
        using Mat part = new(picture, box);
        DrawnGround.Lay(part, leaf, cover);
    }
}
