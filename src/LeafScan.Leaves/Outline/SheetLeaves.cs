using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>Leaves on a sheet: what differs from the paper in colour ratio, with holes told from glare by the paper's level.</summary>
internal static class SheetLeaves
{
    private const double LeastRim = 0.5;

    /// <summary>255 leaf, 0 elsewhere, at the size of the small copy.</summary>
    public static Mat Find(Mat small, ColourRatios ratios, PaperModel paper, OutlineOptions options)
    {
        using Mat raw = paper.Distance(small, ratios);
        using Mat distance = new();
        Cv2.GaussianBlur(raw, distance, default, 0.8);
        double threshold = Threshold(distance, options.LeafFromPaper);
        Mat mask = new();
        Cv2.Compare(distance, Scalar.All(threshold), mask, CmpTypes.GT);
        using Mat kernel = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(3, 3));
        Cv2.MorphologyEx(mask, mask, MorphTypes.Open, kernel);
        FillGlare(small, distance, mask);
        return mask;
    }

    // Otsu's threshold between paper and leaf, kept within sane distances: with no leaf at all it must not split the paper.
    private static double Threshold(Mat distance, double usual)
    {
        using Mat bytes = new();
        distance.ConvertTo(bytes, MatType.CV_8UC1, 10);
        using Mat unused = new();
        double otsu = Cv2.Threshold(bytes, unused, 0, 255, ThresholdTypes.Binary | ThresholdTypes.Otsu) / 10;
        return Math.Clamp(otsu * 0.6, usual * 0.7, usual * 1.4);
    }

    // A closed-in region without leaf colour is a hole only when it is as bright as the paper beside the leaf; otherwise it
    // is shine, a pale vein or a grey spot on the leaf.
    private static void FillGlare(Mat small, Mat distance, Mat mask)
    {
        using Mat grey = new();
        Cv2.CvtColor(small, grey, ColorConversionCodes.BGR2GRAY);
        using Mat outside = new();
        Cv2.BitwiseNot(mask, outside);
        using Mat labels = new();
        using Mat stats = new();
        using Mat centres = new();
        int count = Cv2.ConnectedComponentsWithStats(outside, labels, stats, centres, PixelConnectivity.Connectivity4);
        (int rows, int cols) = (mask.Rows, mask.Cols);
        int smallest = Math.Max(6, rows * cols / 40_000);
        using Mat paperLevel = PaperLevel(grey, outside);
        double leafDistance = Cv2.Mean(distance, mask).Val0;
        for (int label = 1; label < count; label++)
        {
            Rect box = new(
                stats.At<int>(label, (int)ConnectedComponentsTypes.Left), stats.At<int>(label, (int)ConnectedComponentsTypes.Top),
                stats.At<int>(label, (int)ConnectedComponentsTypes.Width), stats.At<int>(label, (int)ConnectedComponentsTypes.Height));
            int area = stats.At<int>(label, (int)ConnectedComponentsTypes.Area);
            if (box.X == 0 || box.Y == 0 || box.Right == cols || box.Bottom == rows || area > rows * cols / 8)
            {
                continue;
            }

            using Mat one = new();
            using Mat labelView = new(labels, box);
            Cv2.InRange(labelView, Scalar.All(label), Scalar.All(label), one);
            using Mat greyView = new(grey, box);
            using Mat paperView = new(paperLevel, box);
            double level = Cv2.Mean(greyView, one).Val0;
            double expected = Cv2.Mean(paperView, one).Val0;
            bool sharp = RimDistance(distance, labels, label, box) > LeastRim * leafDistance;
            if (area < smallest || level < expected * 0.6 || level > expected * 1.12 || !sharp)
            {
                using Mat maskView = new(mask, box);
                maskView.SetTo(Scalar.All(255), one);
            }
        }
    }

    // Colour distance from the paper just outside a region: a hole is cut into full leaf colour, shine fades into it.
    private static double RimDistance(Mat distance, Mat labels, int label, Rect box)
    {
        const int reach = 4;
        Rect wide = Rect.Intersect(new Rect(box.X - reach, box.Y - reach, box.Width + (2 * reach), box.Height + (2 * reach)), new Rect(0, 0, labels.Cols, labels.Rows));
        using Mat view = new(labels, wide);
        using Mat one = new();
        Cv2.InRange(view, Scalar.All(label), Scalar.All(label), one);
        using Mat near = new();
        using Mat far = new();
        using Mat small = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(3, 3));
        using Mat large = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(7, 7));
        Cv2.Dilate(one, near, small);
        Cv2.Dilate(one, far, large);
        using Mat ring = new();
        Cv2.Subtract(far, near, ring);
        using Mat distanceView = new(distance, wide);
        return Cv2.Mean(distanceView, ring).Val0;
    }

    // Brightness of the sheet spread under the leaf from around it.
    private static Mat PaperLevel(Mat grey, Mat outside)
    {
        using Mat weight = MaskedBlur.Weights(outside);
        using Mat level = new();
        grey.ConvertTo(level, MatType.CV_32FC1);
        return MaskedBlur.Gaussian(level, weight, Math.Max(grey.Cols, grey.Rows) / 16.0);
    }
}
