using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Greenness;
using LeafScan.Leaves.Needles;
using LeafScan.Leaves.Outline;
using LeafScan.Photos.Pictures;
using OpenCvSharp;

namespace LeafScan.Leaves.WholePlant;

/// <summary>
/// Cuts the plant in the middle of the frame from lawn, wall, sky, hedge and neighbours: a graph cut on colour and fine
/// detail at low resolution, then foliage and gaps by likelihood at the working size (<see cref="CrownFoliage"/>).
/// </summary>
internal static class CrownCutter
{
    private const int RoughLongSidePx = 480;

    // Detail below this share of the plant's own is a far or smooth background.
    private const double FlatBelow = 0.3;

    // Sky and pale walls have less detail than this share of the plant's own; blue junipers are neutral too, but not calm.
    private const double CalmBelow = 0.75;

    // How far from the plant's main body a loose tuft may lie, twice, pixels of the rough copy.
    private const int LooseTuftsPx = 35;

    /// <summary>Foliage of the plant, 255 or 0; empty where no plant stands out.</summary>
    /// <param name="bgr">Working copy.</param>
    /// <param name="planes">Its colour.</param>
    /// <param name="cancel">Stops between steps.</param>
    public static Mat Cut(Mat bgr, ColourPlanes planes, CancellationToken cancel)
    {
        using Mat rough = Rough(bgr, planes);
        cancel.ThrowIfCancellationRequested();
        using Mat region = new();
        Cv2.Resize(rough, region, bgr.Size(), 0, 0, InterpolationFlags.Nearest);
        return Cv2.CountNonZero(region) < 500 ? new Mat(bgr.Size(), MatType.CV_8UC1, Scalar.All(0)) : CrownFoliage.Of(region, planes, cancel);
    }

    private static Mat Rough(Mat bgr, ColourPlanes planes)
    {
        double scale = Math.Min(1, RoughLongSidePx / (double)Math.Max(bgr.Cols, bgr.Rows));
        using Mat small = new();
        AreaShrink.Into(bgr, small, scale);
        using ColourPlanes smallPlanes = ColourPlanes.Of(small);
        double unit = Math.Max(bgr.Cols, bgr.Rows) / 1200.0;
        using Mat fine = Detail(planes.Level, 0.8 * unit, unit, small.Size());
        using Mat coarse = Detail(planes.Level, 3 * unit, unit, small.Size());
        using Mat guess = Guess(smallPlanes);
        Mat cut = CrownRegion.Of(smallPlanes, fine, coarse, guess);
        KeepCentral(cut);
        NeighbourSplit.Clear(cut);
        RegionVote.Correct(cut, guess);
        KeepCentral(cut);
        NeighbourSplit.Clear(cut);
        KeepCentral(cut);
        return cut;
    }

    private static Mat Guess(ColourPlanes planes)
    {
        Size size = planes.Size;
        using Mat sharp = Sharpness.Of(planes.Level, Math.Max(1.5, Math.Max(size.Width, size.Height) / 100.0));
        using Mat all = new(size, MatType.CV_8UC1, Scalar.All(255));
        double top = Math.Max(1e-4, Spread.Ranks(sharp, all, 0, 1, 0.995)[0]);
        using Mat seeds = Seeds(planes, sharp);
        using Mat red = SeededCut.Scaled(planes.RedToGreen, 90, 128);
        using Mat blue = SeededCut.Scaled(planes.BlueToGreen, 60, 128);
        using Mat third = SeededCut.Scaled(sharp, 255 / top, 0);
        Mat cut = SeededCut.Cut([red, blue, third], seeds, 5);
        KeepCentral(cut);
        return cut;
    }

    private static Mat Detail(Mat level, double finestPx, double unit, Size size)
    {
        using Mat sharp = Sharpness.Of(level, 10 * unit, finestPx);
        Mat small = new();
        Cv2.Resize(sharp, small, size, 0, 0, InterpolationFlags.Area);
        return small;
    }

    private static Mat Seeds(ColourPlanes planes, Mat sharp)
    {
        Size size = planes.Size;
        Mat seeds = new(size, MatType.CV_8UC1, Scalar.All((int)GrabCutClasses.BGD));
        Place(seeds, 0.5, 0.62, 0.56, (int)GrabCutClasses.PR_BGD);
        Place(seeds, 0.26, 0.36, 0.56, (int)GrabCutClasses.PR_FGD);
        using Mat core = new(size, MatType.CV_8UC1, Scalar.All(0));
        Place(core, 0.13, 0.2, 0.6, 255);
        double own = Spread.Ranks(sharp, core, 0, 1, 0.5)[0];
        using Mat flat = new();
        Cv2.InRange(sharp, new Scalar(-1), new Scalar(FlatBelow * own), flat);
        seeds.SetTo(Scalar.All((int)GrabCutClasses.BGD), flat);
        using Mat bright = BrightAndNeutral(planes);
        using Mat calm = new();
        Cv2.InRange(sharp, new Scalar(-1), new Scalar(CalmBelow * own), calm);
        Cv2.BitwiseAnd(bright, calm, bright);
        seeds.SetTo(Scalar.All((int)GrabCutClasses.BGD), bright);
        int edge = Math.Max(2, Math.Max(size.Width, size.Height) / 40);
        Cv2.Rectangle(seeds, new Rect(0, 0, size.Width, size.Height), Scalar.All((int)GrabCutClasses.BGD), 2 * edge);
        return seeds;
    }

    // Sky and pale walls.
    private static Mat BrightAndNeutral(ColourPlanes planes)
    {
        Mat bright = new();
        Cv2.InRange(planes.RedToGreen, new Scalar(-0.25), new Scalar(0.25), bright);
        using Mat other = new();
        Cv2.InRange(planes.BlueToGreen, new Scalar(-0.45), new Scalar(10), other);
        Cv2.BitwiseAnd(bright, other, bright);
        Cv2.InRange(planes.Level, new Scalar(-1.4), new Scalar(10), other);
        Cv2.BitwiseAnd(bright, other, bright);
        return bright;
    }

    private static void Place(Mat map, double halfWidth, double halfHeight, double middle, int value)
        => Cv2.Ellipse(map, new Point(map.Cols / 2, (int)(middle * map.Rows)), new Size((int)(halfWidth * map.Cols), (int)(halfHeight * map.Rows)), 0, 0, 360, Scalar.All(value), -1);

    // Thin bridges to a neighbour are cut; of the parts the one with most of it in the middle of the frame is the plant.
    private static void KeepCentral(Mat cut)
    {
        using Mat disc = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(11, 11));
        using Mat opened = new();
        Cv2.MorphologyEx(cut, opened, MorphTypes.Open, disc);
        using Mat labels = new();
        using Mat statistics = new();
        using Mat centroids = new();
        int count = Cv2.ConnectedComponentsWithStats(opened, labels, statistics, centroids, PixelConnectivity.Connectivity8);
        if (count < 2)
        {
            return;
        }

        double[] central = new double[count];
        int rows = cut.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<int> label = labels.AsRow<int>(y);
            double down = (y - (0.56 * rows)) / (0.36 * rows);
            for (int x = 0; x < label.Length; x++)
            {
                if (label[x] != 0)
                {
                    double across = (x - (0.5 * label.Length)) / (0.26 * label.Length);
                    central[label[x]] += Math.Exp(-2 * ((across * across) + (down * down)));
                }
            }
        }

        int best = Enumerable.Range(1, count - 1).MaxBy(i => central[i]);
        using Mat near = new();
        Cv2.InRange(labels, new Scalar(best), new Scalar(best), near);
        // Tufts left over where the rest has fallen stand apart, but inside the plant's own outline.
        using Mat wider = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(LooseTuftsPx, LooseTuftsPx));
        Cv2.Dilate(near, near, wider);
        Cv2.BitwiseAnd(cut, near, cut);
    }
}
