using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Causes;

/// <summary>Reads how specks are strewn: along the midrib, about brown spots, with dark dots among them.</summary>
internal static class SpeckPatternReader
{
    // With fewer specks dark dots mean nothing.
    private const int LeastForDots = 20;

    // A dropping stands out from the blade by at least this many grey levels, 0..255.
    private const int DarkStep = 28;

    /// <summary>Pattern of one leaf.</summary>
    public static SpeckPattern Read(JudgedLeaf leaf, Mat brown, double diameterPx)
    {
        IReadOnlyList<SpeckMark> specks = leaf.Tissue.Specks;
        if (specks.Count == 0)
        {
            return new SpeckPattern(0, 0, 0, 0, 0);
        }

        Mat mask = leaf.Patch.Mask;
        using Mat nearBrown = FeatureReader.Grown(brown, diameterPx);
        int atBrown = specks.Count(s => At(nearBrown, s));
        double length = Math.Max(mask.Cols, mask.Rows);
        int dots = specks.Count >= LeastForDots && !leaf.FewPixels ? DarkDots(leaf, brown, diameterPx) : 0;
        return new SpeckPattern(specks.Count, diameterPx / length, AtMidrib(mask, specks), atBrown / (double)specks.Count, dots);
    }

    // The midrib is taken as the long axis of the leaf's shape (second moments).
    private static double AtMidrib(Mat mask, IReadOnlyList<SpeckMark> specks)
    {
        Moments m = Cv2.Moments(mask, true);
        if (m.M00 <= 0)
        {
            return 0;
        }

        (double cx, double cy) = (m.M10 / m.M00, m.M01 / m.M00);
        double angle = 0.5 * Math.Atan2(2 * m.Mu11, m.Mu20 - m.Mu02);
        (double sin, double cos) = Math.SinCos(angle);
        double across = (m.Mu20 * sin * sin) + (m.Mu02 * cos * cos) - (2 * m.Mu11 * sin * cos);

        // An even ellipse reaches two standard deviations to either side; a fifth of that lies in the band.
        double half = 0.2 * 2 * Math.Sqrt(Math.Max(across / m.M00, 1e-9));
        using Mat band = new(mask.Size(), MatType.CV_8UC1, Scalar.All(0));
        double far = mask.Cols + mask.Rows;
        Cv2.Line(band, new Point(cx - (far * cos), cy - (far * sin)), new Point(cx + (far * cos), cy + (far * sin)), Scalar.All(255), Math.Clamp((int)(2 * half), 1, 1000));
        Cv2.BitwiseAnd(band, mask, band);
        double expected = Cv2.CountNonZero(band) / m.M00;
        return expected > 0 ? specks.Count(s => At(band, s)) / (specks.Count * expected) : 0;
    }

    // Small dark dots within a few speck widths of a speck, away from brown tissue.
    private static int DarkDots(JudgedLeaf leaf, Mat brown, double diameterPx)
    {
        double wide = Math.Max(3, 3 * diameterPx);
        Rect tight = Cv2.BoundingRect(leaf.Patch.Mask);
        using Mat bgr = new(leaf.Patch.Bgr, tight);
        using Mat mask = new(leaf.Patch.Mask, tight);
        using Mat dark = Darker(bgr, (int)wide | 1);
        using Mat near = new(dark.Size(), MatType.CV_8UC1, Scalar.All(0));
        foreach (SpeckMark s in leaf.Tissue.Specks)
        {
            Cv2.Circle(near, new Point((int)s.X - tight.X, (int)s.Y - tight.Y), (int)(3 * wide), Scalar.All(255), -1);
        }

        using Mat allNearBrown = FeatureReader.Grown(brown, wide);
        using Mat nearBrown = new(allNearBrown, tight);
        near.SetTo(Scalar.All(0), nearBrown);
        using Mat inner = new();
        using Mat rim = Cv2.GetStructuringElement(MorphShapes.Rect, new Size((2 * (int)wide) + 1, (2 * (int)wide) + 1));
        Cv2.Erode(mask, inner, rim, null, 1, BorderTypes.Constant, Scalar.All(0));
        Cv2.BitwiseAnd(dark, near, dark);
        Cv2.BitwiseAnd(dark, inner, dark);
        using Mat labels = new();
        using Mat stats = new();
        using Mat centres = new();
        int count = Cv2.ConnectedComponentsWithStats(dark, labels, stats, centres);
        int dots = 0;
        for (int i = 1; i < count; i++)
        {
            ReadOnlySpan<int> row = stats.AsRow<int>(i);
            int area = row[(int)ConnectedComponentsTypes.Area];
            int side = Math.Max(row[(int)ConnectedComponentsTypes.Width], row[(int)ConnectedComponentsTypes.Height]);

            // Round and not a stroke: a shadow along a vein is long.
            dots += area >= 4 && side <= wide && area > 0.5 * side * side ? 1 : 0;
        }

        return dots;
    }

    // 255 where a pixel is darker than what lies about it within half the kernel; right where the kernel fits into the leaf's box twice.
    private static Mat Darker(Mat bgr, int kernelPx)
    {
        using Mat grey = new();
        Cv2.CvtColor(bgr, grey, ColorConversionCodes.BGR2GRAY);
        Mat dark = new RoundKernel(kernelPx).Close(grey);
        Cv2.Subtract(dark, grey, dark);
        Cv2.Threshold(dark, dark, DarkStep, 255, ThresholdTypes.Binary);
        return dark;
    }

    private static bool At(Mat mask, SpeckMark s) => mask.AsRow<byte>(Math.Clamp((int)s.Y, 0, mask.Rows - 1))[Math.Clamp((int)s.X, 0, mask.Cols - 1)] != 0;
}
