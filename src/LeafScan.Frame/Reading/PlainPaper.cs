using LeafScan.Photos.Pictures;
using OpenCvSharp;

namespace LeafScan.Frame.Reading;

/// <summary>
/// The colour of the light from plain white paper that fills the rim of the photo: one colour all around, pale, and smooth as only
/// paper is. Stone, slate and soil are ten times rougher (docs/decisions/034).
/// </summary>
/// <remarks>
/// Nothing in a photo tells white paper under a yellow light from a smooth yellowish board by day; that is why a photo that was changed is
/// marked with a flag, why one that is neutral already is left as it is, and why of a strong colour only a part is taken out.
/// </remarks>
internal static class PlainPaper
{
    private const int LongSidePx = 640;

    /// <summary>Share of the photo's shorter side that counts as its rim.</summary>
    private const int RimPart = 20;

    /// <summary>Share of the rim that must have the one colour, 0..1.</summary>
    private const double LeastShare = 0.7;

    /// <summary>
    /// Median scatter of ln level over 5 x 5 pixels of the copy, above which a surface is not paper: paper has 0.004 to 0.016, the stone and slate
    /// of 231 photos 0.05 and more.
    /// </summary>
    private const double MostRough = 0.03;

    /// <summary>Linear level of a surface below which it is not taken for white, 0..1.</summary>
    private const double LeastLevel = 0.25;

    /// <summary>Linear level of a channel from which it may be burnt out and says nothing of the light, 0..1.</summary>
    private const double BurntOut = 0.96;

    /// <summary>Distance of ln(R/G) or ln(B/G) from neutral below which a photo is left as it is.</summary>
    private const double LeastCast = 0.1;

    // As ln(R/G) and ln(B/G): beyond evening sun, short of a light bulb.
    private const double MostRedGreen = 0.25;

    private const double MostBlueGreen = 0.45;

    private const double Within = 0.13;

    private const double Cell = 0.05;

    private const int Cells = 80;

    // Keeps logarithms finite.
    private const float Floor = 0.006f;

    private static readonly float[] LinearOf = [.. Enumerable.Range(0, 256).Select(i => (float)WhiteBalance.Linear(i / 255.0))];

    // ln of one level's light over another's, by both levels: three logarithms a pixel were a third of the time.
    private static readonly Lazy<float[]> LogOfRatio = new(() =>
        [.. Enumerable.Range(0, 256 * 256).Select(i => MathF.Log((LinearOf[i / 256] + Floor) / (LinearOf[i % 256] + Floor)))]);

    /// <summary>
    /// What to take for white, in linear light, B, G, R: the paper's white, less far from grey where its colour is strong; null when there is no paper or the light is neutral already.
    /// </summary>
    /// <param name="bgr">The photo, 8-bit B, G, R, sRGB; not changed.</param>
    public static Vec3d? White(Mat bgr)
    {
        double scale = Math.Min(1, LongSidePx / (double)Math.Max(bgr.Cols, bgr.Rows));
        using Mat small = new();
        AreaShrink.Into(bgr, small, scale);
        using Mat values = Values(small);
        using Mat rim = Rim(small.Size());
        (double redGreen, double blueGreen) = CommonColour(values, rim);
        if (!MayBeWhite(redGreen, blueGreen))
        {
            return null;
        }

        using Mat near = Near(values, redGreen, blueGreen);
        using Mat part = new();
        Cv2.BitwiseAnd(near, rim, part);
        if (Cv2.CountNonZero(part) < LeastShare * Cv2.CountNonZero(rim) || Roughness(values, near) > MostRough)
        {
            return null;
        }

        return Lit(small, values, near) is { } white ? Limited(white) : null;
    }

    // Along daylight from low sun to blue shade, and on to light bulbs; greener or yellower things are plants, wood and soil.
    private static bool MayBeWhite(double redGreen, double blueGreen) =>
        redGreen < 0.42 && blueGreen is > -0.7 and < 0.7 && redGreen > (blueGreen > 0 ? -0.25 : -0.15);

    private static Vec3d? Limited(Vec3d white)
    {
        double redGreen = Math.Log(white.Item2 / white.Item1);
        double blueGreen = Math.Log(white.Item0 / white.Item1);
        double part = Math.Min(1, Math.Min(MostRedGreen / Math.Abs(redGreen), MostBlueGreen / Math.Abs(blueGreen)));
        return Math.Max(Math.Abs(redGreen), Math.Abs(blueGreen)) < LeastCast
            ? null
            : new Vec3d(white.Item1 * Math.Exp(part * blueGreen), white.Item1, white.Item1 * Math.Exp(part * redGreen));
    }

    // ln(R/G), ln(B/G) and ln level, 32-bit floats.
    private static Mat Values(Mat small)
    {
        float[] ratios = LogOfRatio.Value;
        small.GetArray(out Vec3b[] pixels);
        Vec3f[] values = new Vec3f[pixels.Length];
        for (int i = 0; i < pixels.Length; i++)
        {
            Vec3b pixel = pixels[i];
            (float b, float g, float r) = (LinearOf[pixel.Item0] + Floor, LinearOf[pixel.Item1] + Floor, LinearOf[pixel.Item2] + Floor);
            values[i] = new Vec3f(
                ratios[(pixel.Item2 * 256) + pixel.Item1], ratios[(pixel.Item0 * 256) + pixel.Item1], MathF.Log((0.2f * r) + (0.7f * g) + (0.1f * b)));
        }

        using Mat borrowed = Mat.FromPixelData(small.Rows, small.Cols, MatType.CV_32FC3, values);
        return borrowed.Clone();
    }

    private static Mat Rim(Size size)
    {
        int width = Math.Max(2, Math.Min(size.Width, size.Height) / RimPart);
        Mat rim = new(size, MatType.CV_8UC1, Scalar.All(255));
        Cv2.Rectangle(rim, new Rect(width, width, size.Width - (2 * width), size.Height - (2 * width)), Scalar.All(0), -1);
        return rim;
    }

    // The most frequent one: a stalk that leaves the frame must not shift it.
    private static (double RedGreen, double BlueGreen) CommonColour(Mat values, Mat rim)
    {
        using Mat counts = new();
        Rangef range = new((float)(-Cell * Cells / 2), (float)(Cell * Cells / 2));
        Cv2.CalcHist([values], [0, 1], rim, counts, 2, [Cells, Cells], [range, range]);
        Cv2.GaussianBlur(counts, counts, new Size(5, 5), 1, 1, BorderTypes.Constant);
        Cv2.MinMaxLoc(counts, out _, out double _, out _, out Point top);
        return ((top.Y + 0.5 - (Cells / 2.0)) * Cell, (top.X + 0.5 - (Cells / 2.0)) * Cell);
    }

    private static Mat Near(Mat values, double redGreen, double blueGreen)
    {
        using Mat off = new();
        Cv2.Subtract(values, new Scalar(redGreen, blueGreen, 0), off);
        using Mat red = off.ExtractChannel(0);
        using Mat blue = off.ExtractChannel(1);
        using Mat distance = new();
        Cv2.Multiply(blue, new Scalar(Math.Sqrt(0.5)), blue);
        Cv2.Magnitude(red, blue, distance);
        Mat near = new();
        Cv2.Compare(distance, new Scalar(Within), near, CmpTypes.LT);
        return near;
    }

    private static double Roughness(Mat values, Mat near)
    {
        using Mat level = values.ExtractChannel(2);
        using Mat mean = new();
        using Mat squares = new();
        Cv2.Blur(level, mean, new Size(5, 5));
        Cv2.Multiply(level, level, squares);
        Cv2.Blur(squares, squares, new Size(5, 5));
        Cv2.Multiply(mean, mean, mean);
        Cv2.Subtract(squares, mean, squares);
        using Mat inner = new();
        using Mat square = Cv2.GetStructuringElement(MorphShapes.Rect, new Size(7, 7));
        Cv2.Erode(near, inner, square);
        float[] scatter = Marked(squares, inner);
        return scatter.Length == 0 ? double.PositiveInfinity : Math.Sqrt(Math.Max(0, Middle(scatter, 0.5)));
    }

    // The brighter part of it: shadow has a colour of its own.
    private static Vec3d? Lit(Mat small, Mat values, Mat near)
    {
        using Mat level = values.ExtractChannel(2);
        float[] levels = Marked(level, near);
        if (Math.Exp(Middle(levels, 0.5)) < LeastLevel)
        {
            return null;
        }

        using Mat lit = new();
        Cv2.Compare(level, new Scalar(Middle(levels, 0.6)), lit, CmpTypes.GE);
        Cv2.BitwiseAnd(lit, near, lit);
        Vec3d white = WhiteBalance.Linear(Cv2.Mean(small, lit));
        return Math.Max(white.Item0, Math.Max(white.Item1, white.Item2)) < BurntOut ? white : null;
    }

    private static float[] Marked(Mat plane, Mat mask)
    {
        plane.GetArray(out float[] values);
        mask.GetArray(out byte[] marks);
        int kept = 0;
        for (int i = 0; i < values.Length; i++)
        {
            if (marks[i] != 0)
            {
                values[kept++] = values[i];
            }
        }

        return values[..kept];
    }

    private static double Middle(float[] values, double share) => Ranked.At(values, (int)(share * (values.Length - 1)));
}
