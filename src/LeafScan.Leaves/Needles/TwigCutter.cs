using LeafScan.Leaves.Greenness;
using LeafScan.Leaves.Outline;
using LeafScan.Photos.Pictures;
using OpenCvSharp;

namespace LeafScan.Leaves.Needles;

/// <summary>
/// Cuts a twig from what lies behind it. On a plain sheet everything that differs from the sheet is twig. Elsewhere it is
/// looked for roughly first: by its green where the surroundings are not green, else by its fine detail, since a shrub
/// behind it is out of focus; then the gaps between its needles are cut out by colour and by how dark they are.
/// </summary>
internal static class TwigCutter
{
    private const int RoughLongSidePx = 800;

    // ln(R/G) below which a colour counts as green.
    private const double GreenBelow = -0.12;

    // Green share of the frame's border from which the surroundings count as green.
    private const double GreenSurroundings = 0.25;

    // Before surroundings that are not green: green wherever it is, and up to yellow what is greener than they are, ln(R/G).
    private const double SurelyGreenBelow = -0.2;
    private const double YellowBelow = 0.2;
    private const double GreenerBy = 0.05;

    // A needle brighter by less than this against what lies around it may be a gap, ln units.
    private const double GapDarkerBy = 0.12;

    // Pieces smaller than this share of the largest are other things.
    private const double LeastPiece = 0.03;

    /// <summary>255 where foliage or wood of the twig is, 0 elsewhere; empty when nothing stands out.</summary>
    /// <param name="bgr">Working copy.</param>
    /// <param name="planes">Its colour.</param>
    /// <param name="paper">The sheet; null when there is none.</param>
    /// <param name="cancel">Stops between steps.</param>
    public static Mat Cut(Mat bgr, ColourPlanes planes, PaperModel? paper, CancellationToken cancel)
    {
        if (paper is not null)
        {
            Mat onSheet = SheetSegmentation.Segment(paper);
            Pieces.KeepLarge(onSheet, LeastPiece);
            return onSheet;
        }

        using Mat rough = Rough(bgr);
        cancel.ThrowIfCancellationRequested();
        using Mat region = new();
        Cv2.Resize(rough, region, bgr.Size(), 0, 0, InterpolationFlags.Nearest);
        Pieces.KeepLarge(region, LeastPiece);
        return Cv2.CountNonZero(region) == 0 ? region.Clone() : WithoutGaps(region, planes);
    }

    private static Mat Rough(Mat bgr)
    {
        double scale = Math.Min(1, RoughLongSidePx / (double)Math.Max(bgr.Cols, bgr.Rows));
        using Mat small = new();
        AreaShrink.Into(bgr, small, scale);
        using ColourPlanes planes = ColourPlanes.Of(small);
        int side = Math.Max(small.Cols, small.Rows);
        using Mat border = Frame(small.Size(), Math.Max(2, side / 25));
        using Mat green = new();
        Cv2.InRange(planes.RedToGreen, new Scalar(-10), new Scalar(GreenBelow), green);
        using Mat greenBorder = new();
        Cv2.BitwiseAnd(green, border, greenBorder);
        bool amongGreen = Cv2.CountNonZero(greenBorder) > GreenSurroundings * Cv2.CountNonZero(border);
        using Mat sharp = Sharpness.Of(planes.Level, Math.Max(1.5, side / 160.0));
        using Mat all = new(small.Size(), MatType.CV_8UC1, Scalar.All(255));
        double top = Math.Max(1e-4, Spread.Ranks(sharp, all, 0, 1, 0.995)[0]);
        using Mat likely = amongGreen ? SharpPlaces(sharp, border, top) : GreenPlaces(planes.RedToGreen, border);
        using Mat seeds = new(small.Size(), MatType.CV_8UC1, Scalar.All((int)GrabCutClasses.PR_BGD));
        using Mat central = Central(small.Size());
        Cv2.BitwiseAnd(likely, central, likely);
        seeds.SetTo(Scalar.All((int)GrabCutClasses.PR_FGD), likely);
        seeds.SetTo(Scalar.All((int)GrabCutClasses.BGD), border);
        using Mat red = SeededCut.Scaled(planes.RedToGreen, 90, 128);
        using Mat blue = SeededCut.Scaled(planes.BlueToGreen, 60, 128);
        using Mat third = amongGreen ? SeededCut.Scaled(sharp, 255 / top, 0) : SeededCut.Scaled(planes.Level, 50, 255);
        return SeededCut.Cut([red, blue, third], seeds, 4);
    }

    // What is greener than nearly all that lies around: before mulch or stone yellow needles are twig as well as green ones.
    private static Mat GreenPlaces(Mat redToGreen, Mat border)
    {
        double below = Spread.Ranks(redToGreen, border, -2, 2, 0.02)[0] - GreenerBy;
        Mat places = new();
        Cv2.InRange(redToGreen, new Scalar(-10), new Scalar(Math.Clamp(below, SurelyGreenBelow, YellowBelow)), places);
        using Mat square = Cv2.GetStructuringElement(MorphShapes.Rect, new Size(2, 2));
        Cv2.MorphologyEx(places, places, MorphTypes.Open, square);
        return places;
    }

    // Sharper than nearly all of the border and than the split of the whole frame by Otsu (1979).
    private static Mat SharpPlaces(Mat sharp, Mat border, double top)
    {
        using Mat grey = new();
        sharp.ConvertTo(grey, MatType.CV_8UC1, 255 / top);
        using Mat split = new();
        double otsu = Cv2.Threshold(grey, split, 0, 255, ThresholdTypes.Otsu) * top / 255;
        double least = Math.Max(otsu, Spread.Ranks(sharp, border, 0, 1, 0.97)[0]);
        Mat places = new();
        Cv2.InRange(sharp, new Scalar(least), new Scalar(100), places);
        return places;
    }

    private static Mat WithoutGaps(Mat region, ColourPlanes planes)
    {
        int side = Math.Max(region.Cols, region.Rows);
        using Mat weight = new();
        region.ConvertTo(weight, MatType.CV_32FC1, 1 / 255.0);
        using Mat level = new();
        Cv2.GaussianBlur(planes.Level, level, default, 0.7);
        using Mat around = MaskedMean.Of(level, weight, side / 100.0);
        using Mat above = new();
        Cv2.Subtract(level, around, above);

        using Mat square = Cv2.GetStructuringElement(MorphShapes.Rect, new Size(5, 5));
        using Mat grown = new();
        Cv2.Dilate(region, grown, square);
        Rect box = Grow(Cv2.BoundingRect(grown), side / 60, region.Size());
        using Mat seeds = new(box.Size, MatType.CV_8UC1, Scalar.All((int)GrabCutClasses.BGD));
        using Mat place = new(grown, box);
        using Mat aboveHere = new(above, box);
        using Mat dark = new();
        Cv2.InRange(aboveHere, new Scalar(-10), new Scalar(-GapDarkerBy), dark);
        Cv2.BitwiseAnd(dark, place, dark);
        seeds.SetTo(Scalar.All((int)GrabCutClasses.PR_FGD), place);
        seeds.SetTo(Scalar.All((int)GrabCutClasses.PR_BGD), dark);
        using Mat redHere = new(planes.RedToGreen, box);
        using Mat blueHere = new(planes.BlueToGreen, box);
        using Mat red = SeededCut.Scaled(redHere, 90, 128);
        using Mat blue = SeededCut.Scaled(blueHere, 60, 128);
        using Mat third = SeededCut.Scaled(aboveHere, 80, 128);
        using Mat cut = SeededCut.Cut([red, blue, third], seeds, 2);
        Mat whole = new(region.Size(), MatType.CV_8UC1, Scalar.All(0));
        using Mat target = new(whole, box);
        cut.CopyTo(target);
        return whole;
    }

    private static Mat Frame(Size size, int wide)
    {
        Mat frame = new(size, MatType.CV_8UC1, Scalar.All(255));
        Cv2.Rectangle(frame, new Rect(wide, wide, Math.Max(1, size.Width - (2 * wide)), Math.Max(1, size.Height - (2 * wide))), Scalar.All(0), -1);
        return frame;
    }

    private static Mat Central(Size size)
    {
        Mat central = new(size, MatType.CV_8UC1, Scalar.All(0));
        Cv2.Ellipse(central, new Point(size.Width / 2, size.Height / 2), new Size(size.Width / 2, size.Height / 2), 0, 0, 360, Scalar.All(255), -1);
        return central;
    }

    private static Rect Grow(Rect box, int by, Size frame)
        => new Rect(box.X - by, box.Y - by, box.Width + (2 * by), box.Height + (2 * by)) & new Rect(0, 0, frame.Width, frame.Height);
}
