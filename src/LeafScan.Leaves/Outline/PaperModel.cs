using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>
/// The plain sheet behind the leaves: its colour ratios and its lit level as smooth surfaces, taken from the border of the
/// frame inwards. Holds how far each pixel lies from the sheet. Owns its planes.
/// </summary>
internal sealed class PaperModel : IDisposable
{
    private PaperModel(Mat redGreen, Mat blueGreen, Mat level, double borderShare, double spread)
    {
        RedGreenOff = redGreen;
        BlueGreenOff = blueGreen;
        LevelOff = level;
        BorderShare = borderShare;
        Spread = spread;
    }

    /// <summary>ln(R/G) minus the sheet's at that place.</summary>
    public Mat RedGreenOff { get; }

    /// <summary>ln(B/G) minus the sheet's at that place.</summary>
    public Mat BlueGreenOff { get; }

    /// <summary>ln level minus the lit sheet's at that place; about 0 on lit sheet, below 0 in shadow.</summary>
    public Mat LevelOff { get; }

    /// <summary>Share of the frame's border that has the sheet's colour, 0..1.</summary>
    public double BorderShare { get; }

    /// <summary>Typical colour distance of sheet pixels from the surface, ln units.</summary>
    public double Spread { get; }

    /// <summary>
    /// The sheet, or null when there is no plain, nearly neutral surface: first the whole frame is tried, then a sheet that
    /// fills a part of it.
    /// </summary>
    /// <param name="planes">Small copy.</param>
    public static PaperModel? Find(ColourPlanes planes)
    {
        using Mat frame = new(planes.Size, MatType.CV_8UC1, Scalar.All(255));
        if (Inside(planes, frame, 0.5) is { } whole)
        {
            return whole;
        }

        using Mat? part = SheetArea.Find(planes);
        return part is null ? null : Inside(planes, part, 0.6);
    }

    /// <summary>The sheet that fills <paramref name="area"/>; what lies outside counts as sheet too and is never leaf.</summary>
    private static PaperModel? Inside(ColourPlanes planes, Mat area, double leastShare)
    {
        using Mat border = Border(area);
        (double rg, double bg) = SheetArea.CommonColour(planes, border);
        if (!SheetArea.IsNeutral(rg, bg))
        {
            return null;
        }

        using Mat near = SheetArea.Near(planes.RedToGreen, planes.BlueToGreen, rg, bg, 0.13);
        using Mat nearBorder = new();
        Cv2.BitwiseAnd(near, border, nearBorder);
        double share = Cv2.CountNonZero(nearBorder) / (double)Math.Max(1, Cv2.CountNonZero(border));
        if (share < leastShare)
        {
            return null;
        }

        Mat inliers = nearBorder.Clone();
        (Mat rgOff, Mat bgOff) = Off(planes, inliers);
        for (int round = 0; round < 3; round++)
        {
            using Mat close = SheetArea.Near(rgOff, bgOff, 0, 0, round == 0 ? 0.1 : 0.08);
            Cv2.BitwiseAnd(close, area, inliers);
            rgOff.Dispose();
            bgOff.Dispose();
            (rgOff, bgOff) = Off(planes, inliers);
        }

        using Mat last = SheetArea.Near(rgOff, bgOff, 0, 0, 0.1);
        Cv2.BitwiseAnd(last, area, last);
        double spread = MeanDistance(rgOff, bgOff, last);
        Mat levelOff = LitLevel(planes.Level, last);
        inliers.Dispose();
        using Mat outside = new();
        Cv2.BitwiseNot(area, outside);
        rgOff.SetTo(Scalar.All(0), outside);
        bgOff.SetTo(Scalar.All(0), outside);
        levelOff.SetTo(Scalar.All(0), outside);
        return new PaperModel(rgOff, bgOff, levelOff, share, spread);
    }

    /// <inheritdoc />
    public void Dispose()
    {
        RedGreenOff.Dispose();
        BlueGreenOff.Dispose();
        LevelOff.Dispose();
    }

    // What is left of both colour ratios when the sheet's own, as the marked pixels have them, are taken off.
    private static (Mat RedGreen, Mat BlueGreen) Off(ColourPlanes planes, Mat marked)
    {
        Mat? redGreen = null, blueGreen = null;
        Bands.Both(
            () => redGreen = SmoothSurface.Fit(planes.RedToGreen, marked).Below(planes.RedToGreen),
            () => blueGreen = SmoothSurface.Fit(planes.BlueToGreen, marked).Below(planes.BlueToGreen));
        return (redGreen!, blueGreen!);
    }

    private static Mat Border(Mat area)
    {
        int w = Math.Max(2, Math.Min(area.Cols, area.Rows) / 20);
        using Mat square = Cv2.GetStructuringElement(MorphShapes.Rect, new Size((2 * w) + 1, (2 * w) + 1));
        using Mat inner = new();
        Cv2.Erode(area, inner, square, borderType: BorderTypes.Constant, borderValue: Scalar.All(0));
        Mat border = new();
        Cv2.Subtract(area, inner, border);
        return border;
    }

    private static double MeanDistance(Mat redGreen, Mat blueGreen, Mat marked)
    {
        using Mat distance = new();
        Cv2.Magnitude(redGreen, blueGreen, distance);
        return Cv2.CountNonZero(marked) == 0 ? 0 : Cv2.Mean(distance, marked).Val0;
    }

    // Shadow lies below the lit sheet, so each round drops what is darker and keeps what is brighter.
    private static Mat LitLevel(Mat level, Mat paper)
    {
        using Mat lit = paper.Clone();
        Mat off = SmoothSurface.Fit(level, lit).Below(level);
        double[] keepAbove = [-0.45, -0.3, -0.25];
        foreach (double lowest in keepAbove)
        {
            Cv2.InRange(off, new Scalar(lowest), new Scalar(1), lit);
            Cv2.BitwiseAnd(lit, paper, lit);
            off.Dispose();
            off = SmoothSurface.Fit(level, lit).Below(level);
        }

        return off;
    }
}
