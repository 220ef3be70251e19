using LeafScan.Frame.Sheets;
using LeafScan.Notes.Paper;
using LeafScan.Notes.Tags;
using OpenCvSharp;

namespace LeafScan.Training.FrameCheck;

/// <summary>One printed tag in a picture, with so many pixels to a square of its code.</summary>
internal static class TagScene
{
    private const double InkLevel = 38;

    private const double PaperLevel = 235;

    /// <summary>The picture is drawn so much larger and then averaged, as a sensor does.</summary>
    private const int Fine = 4;

    /// <summary>How squares in the picture relate to the paper.</summary>
    /// <param name="code">The plant's code.</param>
    /// <param name="pxPerModule">Pixels to the side of one square, in the middle of the tag.</param>
    /// <param name="asPhoto">
    /// False: straight, even and sharp, only shifted by parts of a pixel. True: tilted up to 30°, turned up to 25°, blur of 0.5 to
    /// 1 pixel, light falling off by up to 40 %, noise of 3 to 8 levels, JPEG of quality 75 to 92.
    /// </param>
    /// <param name="random">Draws all of that.</param>
    /// <param name="ground">Paints what lies behind the tag at a size; null for plain green.</param>
    /// <param name="shakePx">Blur on top of all that, in pixels; 0 for none.</param>
    /// <param name="tiltDegrees">Tilt in degrees, 0 to 75, in place of the drawn one; null for that.</param>
    public static Mat Draw(string code, double pxPerModule, bool asPhoto, Random random, Func<Size, Mat>? ground = null, double shakePx = 0, double? tiltDegrees = null)
    {
        TagLayout layout = new(PaperSize.A4);
        PaperPage page = TagPages.Of([new PlantTag(code)], layout)[0];
        FilledBoxes squares = page.Shapes.OfType<FilledBoxes>().Single();
        double moduleMm = squares.Areas.Min(a => a.HeightMm);
        double pxPerMm = pxPerModule / moduleMm;
        const double FlatPxPerMm = 24;
        using Mat flat = Flat(page, squares, layout, FlatPxPerMm);
        Size size = new((int)(layout.TagWidthMm * pxPerMm * 1.3) + 40, (int)(TagLayout.TagHeightMm * pxPerMm * 1.9) + 40);
        using Mat map = Map(layout, size, FlatPxPerMm, pxPerMm, asPhoto, random, tiltDegrees);
        using Mat large = new();
        Cv2.WarpPerspective(flat, large, map, new Size(size.Width * Fine, size.Height * Fine), InterpolationFlags.Linear, BorderTypes.Constant, new Scalar(70, 105, 85));
        Mat picture = new();
        Cv2.Resize(large, picture, size, 0, 0, InterpolationFlags.Area);
        if (ground is not null)
        {
            Ground(picture, flat, map, ground);
        }

        if (shakePx > 0)
        {
            Cv2.GaussianBlur(picture, picture, default, shakePx);
        }

        return asPhoto ? Photograph(picture, random) : picture;
    }

    private static void Ground(Mat picture, Mat flat, Mat map, Func<Size, Mat> ground)
    {
        using Mat whole = new(flat.Size(), MatType.CV_8UC1, Scalar.All(255));
        using Mat large = new();
        Cv2.WarpPerspective(whole, large, map, new Size(picture.Cols * Fine, picture.Rows * Fine));
        using Mat tag = new();
        Cv2.Resize(large, tag, picture.Size(), 0, 0, InterpolationFlags.Area);
        using Mat beside = new();
        Cv2.Threshold(tag, beside, 250, 255, ThresholdTypes.BinaryInv);
        using Mat behind = ground(picture.Size());
        behind.CopyTo(picture, beside);
    }

    private static Mat Flat(PaperPage page, FilledBoxes squares, TagLayout layout, double pxPerMm)
    {
        int At(double mm) => (int)Math.Round((mm - TagLayout.EdgeMm) * pxPerMm);
        Mat flat = new((int)(TagLayout.TagHeightMm * pxPerMm), (int)(layout.TagWidthMm * pxPerMm), MatType.CV_8UC3, Scalar.All(PaperLevel));
        foreach (SheetArea a in squares.Areas)
        {
            using Mat part = flat.SubMat(At(a.TopMm), At(a.TopMm + a.HeightMm), At(a.LeftMm), At(a.LeftMm + a.WidthMm));
            part.SetTo(Scalar.All(InkLevel));
        }

        foreach (PaperText text in page.Shapes.OfType<PaperText>().Where(text => text.Bold))
        {
            Cv2.PutText(flat, text.Words, new Point(At(text.XMm), At(text.BaselineMm)), HersheyFonts.HersheySimplex, text.SizeMm * pxPerMm / 30, Scalar.All(InkLevel), (int)(text.SizeMm * pxPerMm / 10));
        }

        return flat;
    }

    // The tag's corners turned, then tilted about an axis in its plane, seen from six tag widths away.
    private static Mat Map(TagLayout layout, Size size, double flatPxPerMm, double pxPerMm, bool asPhoto, Random random, double? tiltDegrees)
    {
        double turn = asPhoto ? Radians(random, 25) : 0;
        double tilt = asPhoto ? Math.Abs(Radians(random, 30)) : 0;
        tilt = tiltDegrees is { } degrees ? degrees * Math.PI / 180 : tilt;
        double axis = random.NextDouble() * Math.PI * 2;
        double far = layout.TagWidthMm * 6;
        (double shiftX, double shiftY) = (random.NextDouble(), random.NextDouble());
        Point2f Seen(double xMm, double yMm)
        {
            (double x, double y) = (xMm - (layout.TagWidthMm / 2), yMm - (TagLayout.TagHeightMm / 2));
            (x, y) = ((x * Math.Cos(turn)) - (y * Math.Sin(turn)), (x * Math.Sin(turn)) + (y * Math.Cos(turn)));
            double along = (x * Math.Cos(axis)) + (y * Math.Sin(axis));
            double across = (y * Math.Cos(axis)) - (x * Math.Sin(axis));
            double nearer = far / (far + (across * Math.Sin(tilt)));
            across *= Math.Cos(tilt);
            (x, y) = (((along * Math.Cos(axis)) - (across * Math.Sin(axis))) * nearer, ((along * Math.Sin(axis)) + (across * Math.Cos(axis))) * nearer);
            return new Point2f((float)(((x * pxPerMm) + (size.Width / 2.0) + shiftX) * Fine), (float)(((y * pxPerMm) + (size.Height / 2.0) + shiftY) * Fine));
        }

        (double w, double h) = (layout.TagWidthMm, TagLayout.TagHeightMm);
        Point2f Flat(double x, double y) => new((float)(x * flatPxPerMm), (float)(y * flatPxPerMm));
        return Cv2.GetPerspectiveTransform([Flat(0, 0), Flat(w, 0), Flat(w, h), Flat(0, h)], [Seen(0, 0), Seen(w, 0), Seen(w, h), Seen(0, h)]);
    }

    private static double Radians(Random random, double mostDegrees) => ((random.NextDouble() * 2) - 1) * mostDegrees * Math.PI / 180;

    private static Mat Photograph(Mat picture, Random random)
    {
        using Mat sharp = picture;
        using Mat value = new();
        Cv2.GaussianBlur(sharp, value, default, 0.5 + (random.NextDouble() * 0.5));
        value.ConvertTo(value, MatType.CV_32FC3);
        double loss = random.NextDouble() * 0.4;
        using Mat ramp = Mat.FromPixelData(1, 2, MatType.CV_32FC3, new float[] { 1, 1, 1, (float)(1 - loss), (float)(1 - loss), (float)(1 - loss) });
        using Mat light = new();
        Cv2.Resize(ramp, light, value.Size());
        Cv2.Multiply(value, light, value);
        using Mat noise = new(value.Size(), MatType.CV_32FC3);
        Cv2.SetTheRNG((ulong)random.NextInt64());
        Cv2.Randn(noise, Scalar.All(0), Scalar.All(3 + (random.NextDouble() * 5)));
        Cv2.Add(value, noise, value);
        using Mat levels = new();
        value.ConvertTo(levels, MatType.CV_8UC3);
        Cv2.ImEncode(".jpg", levels, out byte[] jpeg, new ImageEncodingParam(ImwriteFlags.JpegQuality, 75 + random.Next(18)));
        return Cv2.ImDecode(jpeg, ImreadModes.Color);
    }
}
