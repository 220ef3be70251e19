using LeafScan.Leaves.Kinds;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Kinds;

/// <summary>The same thing photographed again: turned, nearer, in other light, softer, compressed.</summary>
internal static class KindVariation
{
    /// <summary>Varies a picture.</summary>
    /// <param name="example">The picture; not changed.</param>
    /// <param name="random">Source of chance.</param>
    /// <param name="nearest">Smallest share of the frame's sides that may be cut out, 0..1.</param>
    public static KindExample Of(KindExample example, Random random, double nearest)
    {
        Mat picture = Cut(example.Pixels, random, nearest);
        Turn(picture, random);
        Relight(picture, random);
        Recolour(picture, random, example.Kind == PhotoKind.Leaf && random.Hit(0.3) ? random.Between(5, 55) : 0);
        if (random.Hit(0.25))
        {
            HardShadow(picture, random);
        }

        if (random.Hit(0.35))
        {
            ShrunkAndSharpened(picture, random);
        }

        double blur = random.Between(0, 0.004) * Math.Max(picture.Cols, picture.Rows);
        if (blur > 0.4)
        {
            Cv2.GaussianBlur(picture, picture, default, blur);
        }

        if (random.Hit(0.5))
        {
            DrawnUnusable.Noise(picture, random, random.Between(0, 6));
        }

        Cv2.ImEncode(".jpg", picture, out byte[] bytes, new ImageEncodingParam(ImwriteFlags.JpegQuality, random.Next(45, 96)));
        picture.Dispose();
        return example with { Pixels = Cv2.ImDecode(bytes, ImreadModes.Color) };
    }

    private static Mat Cut(Mat from, Random random, double nearest)
    {
        double share = random.Between(nearest, 1);
        Size size = new(
            Math.Max(8, (int)(from.Cols * share * random.Between(0.85, 1))), Math.Max(8, (int)(from.Rows * share * random.Between(0.85, 1))));
        Rect box = new Rect(random.Next(from.Cols - Math.Min(size.Width, from.Cols) + 1), random.Next(from.Rows - Math.Min(size.Height, from.Rows) + 1), size.Width, size.Height)
            & new Rect(default, from.Size());
        using Mat part = new(from, box);
        return part.Clone();
    }

    // Washed out or vivid; leaves also on their way to red (fall colour, red cultivars).
    private static void Recolour(Mat picture, Random random, double redder)
    {
        double vivid = Math.Clamp(random.LogNormal(0.95, 0.3), 0.3, 1.5);
        using Mat lab = new();
        picture.ConvertTo(lab, MatType.CV_32FC3, 1 / 255.0);
        Cv2.CvtColor(lab, lab, ColorConversionCodes.BGR2Lab);
        Cv2.Multiply(lab, new Scalar(1, vivid, vivid), lab);
        if (redder > 0)
        {
            using Mat green = new();
            Cv2.InRange(lab, new Scalar(5, -128, 2), new Scalar(100, -4, 128), green);
            using Mat soft = new();
            Cv2.GaussianBlur(green, soft, default, 2);
            using Mat share = new();
            soft.ConvertTo(share, MatType.CV_32F, redder / 255);
            using Mat none = new(share.Size(), MatType.CV_32FC1, Scalar.All(0));
            using Mat step = new();
            Cv2.Merge([none, share, none], step);
            Cv2.Add(lab, step, lab);
        }

        Cv2.CvtColor(lab, lab, ColorConversionCodes.Lab2BGR);
        lab.ConvertTo(picture, MatType.CV_8UC3, 255);
    }

    // Of a hand, a branch or a wall in hard sun.
    private static void HardShadow(Mat picture, Random random)
    {
        using Mat light = new(picture.Size(), MatType.CV_32FC3, Scalar.All(1));
        double deep = random.Between(0.25, 0.7);
        Scalar shade = new(Math.Min(1, deep * 1.15), deep, deep * 0.95);
        int count = random.Next(1, 4);
        for (int i = 0; i < count; i++)
        {
            Point at = new(random.Next(picture.Cols), random.Next(picture.Rows));
            Size axes = new(random.Next(8, 8 + (picture.Cols / 3)), random.Next(8, 8 + (picture.Rows / 2)));
            Cv2.Ellipse(light, at, axes, random.Between(0, 180), 0, 360, shade, -1, LineTypes.AntiAlias);
        }

        Cv2.GaussianBlur(light, light, default, random.Between(0.5, 8));
        using Mat lit = new();
        picture.ConvertTo(lit, MatType.CV_32FC3);
        Cv2.Multiply(lit, light, lit);
        lit.ConvertTo(picture, MatType.CV_8UC3);
    }

    // As photos are that went through a messenger or a data set: small and crisp.
    private static void ShrunkAndSharpened(Mat picture, Random random)
    {
        double factor = Math.Min(1.0, random.Between(200, 320) / Math.Max(picture.Cols, picture.Rows));
        Cv2.Resize(picture, picture, new Size(Math.Max(8, picture.Cols * factor), Math.Max(8, picture.Rows * factor)), 0, 0, InterpolationFlags.Area);
        DrawnUnusable.Noise(picture, random, random.Between(0, 18));
        using Mat soft = new();
        Cv2.GaussianBlur(picture, soft, default, random.Between(0.7, 1.5));
        double more = random.Between(0.5, 3);
        Cv2.AddWeighted(picture, 1 + more, soft, -more, 0, picture);
    }

    private static void Turn(Mat picture, Random random)
    {
        if (random.Hit(0.5))
        {
            Cv2.Flip(picture, picture, FlipMode.Y);
        }

        int quarter = random.Next(4);
        if (quarter > 0)
        {
            Cv2.Rotate(picture, picture, (RotateFlags)(quarter - 1));
        }
    }

    private static void Relight(Mat picture, Random random)
    {
        double gain = random.LogNormal(1, 0.18);
        Scalar balance = new(gain * random.LogNormal(1, 0.06), gain, gain * random.LogNormal(1, 0.06));
        using Mat light = new();
        picture.ConvertTo(light, MatType.CV_32FC3, 1 / 255.0);
        Cv2.Multiply(light, balance, light);
        Cv2.Max(light, 0, light);
        Cv2.Pow(light, random.LogNormal(1, 0.15), light);
        light.ConvertTo(picture, MatType.CV_8UC3, 255);
    }
}
