using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Learned;

/// <summary>
/// Holes that the network took for glare. On a sheet both are white; but a hole has exactly the paper's colour and is
/// flat, while shine keeps the leaf's texture and tint.
/// </summary>
internal static class PaperHoles
{
    // In 8-bit levels. Paper under one lamp keeps within these; a field background does not and is left alone.
    private const double MostPaperSpread = 22;
    private const double MostColourGap = 16;
    private const double MostHoleSpread = 9;

    /// <summary>Takes holes out of the leaf mask and the codes.</summary>
    /// <param name="bgr">Patch pixels.</param>
    /// <param name="there">255 on the leaf; loses the holes.</param>
    /// <param name="codes">Mask codes; become 0 in the holes.</param>
    public static void Open(Mat bgr, Mat there, Mat codes)
    {
        using Mat doubtful = new();
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Unassessed), Scalar.All((int)MaskCode.Unassessed), doubtful);
        if (Cv2.CountNonZero(doubtful) == 0)
        {
            return;
        }

        using Mat outside = new();
        Cv2.BitwiseNot(there, outside);
        if (Cv2.CountNonZero(outside) < 200)
        {
            return;
        }

        Cv2.MeanStdDev(bgr, out _, out Scalar spread, outside);
        if (Math.Max(spread.Val0, Math.Max(spread.Val1, spread.Val2)) > MostPaperSpread)
        {
            return;
        }

        using Mat paper = Paper(bgr, outside);
        using Mat labels = new();
        using Mat stats = new();
        using Mat centres = new();
        int count = Cv2.ConnectedComponentsWithStats(doubtful, labels, stats, centres);
        for (int label = 1; label < count; label++)
        {
            Rect box = new(
                stats.At<int>(label, (int)ConnectedComponentsTypes.Left), stats.At<int>(label, (int)ConnectedComponentsTypes.Top),
                stats.At<int>(label, (int)ConnectedComponentsTypes.Width), stats.At<int>(label, (int)ConnectedComponentsTypes.Height));
            using Mat labelView = new(labels, box);
            using Mat one = new();
            Cv2.InRange(labelView, Scalar.All(label), Scalar.All(label), one);
            if (IsPaper(bgr, paper, box, one))
            {
                using Mat thereView = new(there, box);
                using Mat codesView = new(codes, box);
                thereView.SetTo(Scalar.All(0), one);
                codesView.SetTo(Scalar.All(0), one);
            }
        }
    }

    private static bool IsPaper(Mat bgr, Mat paper, Rect box, Mat region)
    {
        // The rim mixes with leaf; only the inside is asked, where there is one.
        using Mat inner = new();
        using Mat kernel = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(5, 5));
        Cv2.Erode(region, inner, kernel, null, 1, BorderTypes.Constant, Scalar.All(0));
        if (Cv2.CountNonZero(inner) < 9)
        {
            return false;
        }

        using Mat pixels = new(bgr, box);
        using Mat expected = new(paper, box);
        Cv2.MeanStdDev(pixels, out Scalar mean, out Scalar spread, inner);
        Scalar sheet = Cv2.Mean(expected, inner);
        double gap = Math.Max(Math.Abs(mean.Val0 - sheet.Val0), Math.Max(Math.Abs(mean.Val1 - sheet.Val1), Math.Abs(mean.Val2 - sheet.Val2)));
        return gap < MostColourGap && Math.Max(spread.Val0, Math.Max(spread.Val1, spread.Val2)) < MostHoleSpread;
    }

    // The sheet's colour spread under the leaf from around it, on a small copy.
    private static Mat Paper(Mat bgr, Mat outside)
    {
        double shrink = Math.Min(1.0, 160.0 / Math.Max(bgr.Cols, bgr.Rows));
        Size size = new(Math.Max(2, (int)(bgr.Cols * shrink)), Math.Max(2, (int)(bgr.Rows * shrink)));
        using Mat small = new();
        using Mat smallOutside = new();
        Cv2.Resize(bgr, small, size, 0, 0, InterpolationFlags.Area);
        Cv2.Resize(outside, smallOutside, size, 0, 0, InterpolationFlags.Area);
        Cv2.Threshold(smallOutside, smallOutside, 254, 255, ThresholdTypes.Binary);
        using Mat weight = MaskedBlur.Weights(smallOutside);
        using Mat colour = new();
        small.ConvertTo(colour, MatType.CV_32FC3);
        using Mat mean = MaskedBlur.Gaussian(colour, weight, 20);
        Mat paper = new();
        Cv2.Resize(mean, paper, bgr.Size(), 0, 0, InterpolationFlags.Linear);
        return paper;
    }
}
