using OpenCvSharp;

namespace LeafScan.Taps.Paper;

/// <summary>
/// Where the white sheet lies, on a copy eight times smaller: the largest region that is pale and hardly coloured. Hard
/// edges of light on it (sun patches, creases) are left out, since what lies there cannot be judged.
/// </summary>
internal sealed class SheetMask : IDisposable
{
    /// <summary>Pixels of the photo per pixel of the small copy.</summary>
    public const int Cell = 8;

    // Specks and bits up to this many cells are closed over.
    private const int Closing = 9;
    private const double PaleShare = 0.42;
    private const double ColourMax = 0.3;
    private const double StepMax = 0.09;

    private SheetMask(Mat ground, Mat judged, double sheetShare, double burntShare)
    {
        Ground = ground;
        Judged = judged;
        SheetShare = sheetShare;
        BurntShare = burntShare;
    }

    /// <summary>Brightness of the bare paper, 8-bit, small.</summary>
    public Mat Ground { get; }

    /// <summary>255 where specks can be judged, small.</summary>
    public Mat Judged { get; }

    /// <summary>Share of the photo that is sheet, 0..1.</summary>
    public double SheetShare { get; }

    /// <summary>Share of the sheet that is burnt out, 0..1.</summary>
    public double BurntShare { get; }

    /// <summary>Share of the sheet that was left out for hard edges of light, 0..1.</summary>
    public double StepShare { get; private set; }

    /// <summary>Corners of the sheet's outline in photo pixels; four when it is seen whole, else more or none.</summary>
    public IReadOnlyList<Point2d> Corners { get; private set; } = [];

    /// <summary>Looks for the sheet.</summary>
    /// <param name="bgr">The photo.</param>
    /// <param name="grey">Its brightness, 8-bit, full size.</param>
    public static SheetMask Find(Mat bgr, Mat grey)
    {
        using Mat small = new();
        Size size = new(Math.Max(1, bgr.Cols / Cell), Math.Max(1, bgr.Rows / Cell));
        Cv2.Resize(bgr, small, size, 0, 0, InterpolationFlags.Area);
        using Mat block = Cv2.GetStructuringElement(MorphShapes.Rect, new Size(Closing, Closing));
        Cv2.MorphologyEx(small, small, MorphTypes.Close, block);
        using Mat pale = Pale(small, out double burnt);
        using Mat sheet = Largest(pale);
        double share = Cv2.CountNonZero(sheet) / (double)sheet.Total();

        using Mat smallGrey = new();
        Cv2.Resize(grey, smallGrey, size, 0, 0, InterpolationFlags.Area);
        Mat ground = new();
        Cv2.MorphologyEx(smallGrey, ground, MorphTypes.Close, block);
        Mat judged = new();
        using Mat around = Cv2.GetStructuringElement(MorphShapes.Rect, new Size(3, 3));
        Cv2.Erode(sheet, judged, around, null, 1, BorderTypes.Constant, Scalar.All(255));
        SpreadOutwards(ground, judged, block);
        double inside = Cv2.CountNonZero(judged);
        LeaveOutSteps(ground, judged, around);
        return new SheetMask(ground, judged, share, burnt)
        {
            StepShare = 1 - (Cv2.CountNonZero(judged) / Math.Max(1, inside)),
            Corners = Outline(sheet),
        };
    }

    /// <inheritdoc />
    public void Dispose()
    {
        Ground.Dispose();
        Judged.Dispose();
    }

    private static Mat Pale(Mat small, out double burntShare)
    {
        Mat[] planes = Cv2.Split(small);
        try
        {
            using Mat most = new();
            using Mat least = new();
            Cv2.Max(planes[0], planes[1], most);
            Cv2.Max(most, planes[2], most);
            Cv2.Min(planes[0], planes[1], least);
            Cv2.Min(least, planes[2], least);

            // min > (1 - c) max says "hardly coloured" without a division.
            using Mat grey = new();
            using Mat floor = new();
            most.ConvertTo(floor, MatType.CV_8UC1, 1 - ColourMax);
            Cv2.Compare(least, floor, grey, CmpTypes.GT);
            double bright = Percentile(most, grey, 0.9);
            Mat pale = new();
            Cv2.Compare(most, new Scalar(PaleShare * bright), pale, CmpTypes.GT);
            Cv2.BitwiseAnd(pale, grey, pale);
            using Mat burnt = new();
            Cv2.Compare(least, new Scalar(252), burnt, CmpTypes.GT);
            burntShare = Cv2.CountNonZero(burnt) / (double)Math.Max(1, Cv2.CountNonZero(pale));
            return pale;
        }
        finally
        {
            foreach (Mat plane in planes)
            {
                plane.Dispose();
            }
        }
    }

    private static Mat Largest(Mat pale)
    {
        Mat sheet = new(pale.Size(), MatType.CV_8UC1, Scalar.All(0));
        Cv2.FindContours(pale, out Point[][] rings, out HierarchyIndex[] tree, RetrievalModes.CComp, ContourApproximationModes.ApproxNone);
        int best = -1;
        double area = 0;
        for (int i = 0; i < rings.Length; i++)
        {
            if (tree[i].Parent < 0 && Cv2.ContourArea(rings[i]) > area)
            {
                (best, area) = (i, Cv2.ContourArea(rings[i]));
            }
        }

        if (best < 0)
        {
            return sheet;
        }

        Cv2.DrawContours(sheet, rings, best, Scalar.All(255), -1);

        // Bits of plant are small holes and belong to the sheet; a hand or a stone does not.
        for (int hole = tree[best].Child; hole >= 0; hole = tree[hole].Next)
        {
            if (Cv2.ContourArea(rings[hole]) > 0.01 * area)
            {
                Cv2.DrawContours(sheet, rings, hole, Scalar.All(0), -1);
            }
        }

        return sheet;
    }

    // So that what lies under the sheet does not darken the paper's rim when the ground is smoothed.
    private static void SpreadOutwards(Mat ground, Mat inside, Mat block)
    {
        using Mat outside = new();
        Cv2.BitwiseNot(inside, outside);
        using Mat wide = ground.Clone();
        wide.SetTo(Scalar.All(0), outside);
        Cv2.Dilate(wide, wide, block);
        wide.CopyTo(ground, outside);
    }

    private static void LeaveOutSteps(Mat ground, Mat judged, Mat around)
    {
        using Mat step = new();
        Cv2.MorphologyEx(ground, step, MorphTypes.Gradient, around);
        using Mat allowed = new();
        ground.ConvertTo(allowed, MatType.CV_8UC1, StepMax, 1);
        using Mat hard = new();
        Cv2.Compare(step, allowed, hard, CmpTypes.GT);
        Cv2.Dilate(hard, hard, around);
        judged.SetTo(Scalar.All(0), hard);
    }

    private static Point2d[] Outline(Mat sheet)
    {
        Cv2.FindContours(sheet, out Point[][] rings, out _, RetrievalModes.External, ContourApproximationModes.ApproxSimple);
        if (rings.Length == 0)
        {
            return [];
        }

        Point[] hull = Cv2.ConvexHull(rings.MaxBy(ring => Cv2.ContourArea(ring))!);
        Point[] corners = Cv2.ApproxPolyDP(hull, 0.03 * Cv2.ArcLength(hull, true), true);
        return [.. corners.Select(c => new Point2d((c.X + 0.5) * Cell, (c.Y + 0.5) * Cell))];
    }

    private static double Percentile(Mat bytes, Mat mask, double share)
    {
        using Mat histogram = new();
        Cv2.CalcHist([bytes], [0], mask, histogram, 1, [256], [new Rangef(0, 256)]);
        histogram.GetArray(out float[] counts);
        double wanted = share * counts.Sum(c => (double)c);
        double sum = 0;
        for (int i = 0; i < 256; i++)
        {
            sum += counts[i];
            if (sum >= wanted && sum > 0)
            {
                return i;
            }
        }

        return 255;
    }
}
