using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.WholePlant;

/// <summary>
/// Parts a plant from neighbours of its own colour that grow into it: they run out of the frame at its sides, and where two
/// round things touch there is a waist.
/// </summary>
internal static class NeighbourSplit
{
    // A neighbour is at least so much wider than the waist.
    private const double LeastRatio = 1.08;

    // Waists looked at, shares of the plant's own half width.
    private const double Widest = 0.9;
    private const double Narrowest = 0.2;
    private const double Step = 0.02;

    // The frame's sides, and the part of it that the plant's middle lies in, shares of its width.
    private const double Edge = 0.05;
    private const double Central = 0.2;

    /// <summary>Clears what belongs to neighbours.</summary>
    /// <param name="mask">255 on what was cut out, small copy; changed.</param>
    public static void Clear(Mat mask)
    {
        int edge = Math.Max(2, (int)(Edge * mask.Cols));
        int beyond = mask.Rows / 2;
        using Mat wide = Widened(mask, edge, beyond);
        using Mat depth = new();
        Cv2.DistanceTransform(wide, depth, DistanceTypes.L2, DistanceTransformMasks.Mask5);
        int middle = (int)((0.5 - Central) * mask.Cols);
        Rect centre = new(beyond + middle, 0, Math.Max(1, mask.Cols - (2 * middle)), wide.Rows);
        using Mat central = new(depth, centre);
        Cv2.MinMaxLoc(central, out double _, out double half, out Point _, out Point at);
        Point heart = new(at.X + centre.X, at.Y + centre.Y);
        using Mat gone = new(wide.Size(), MatType.CV_8UC1, Scalar.All(0));
        for (double waist = Widest; waist > Narrowest; waist -= Step)
        {
            Mark(gone, wide, depth, heart, waist * half, (beyond + edge, beyond + mask.Cols - edge));
        }

        using Mat seen = new(gone, new Rect(beyond, 1, mask.Cols, mask.Rows));
        mask.SetTo(Scalar.All(0), seen);
    }

    // Without small gaps, and carried on beyond the frame's sides as it is there.
    private static Mat Widened(Mat mask, int edge, int beyond)
    {
        using Mat disc = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(9, 9));
        using Mat solid = new();
        Cv2.MorphologyEx(mask, solid, MorphTypes.Close, disc);
        using Mat within = new(solid, new Rect(edge, 0, mask.Cols - (2 * edge), mask.Rows));
        Mat wide = new();
        Cv2.CopyMakeBorder(within, wide, 0, 0, beyond + edge, beyond + edge, BorderTypes.Replicate);
        Cv2.CopyMakeBorder(wide, wide, 1, 1, 0, 0, BorderTypes.Constant, Scalar.All(0));
        return wide;
    }

    private static void Mark(Mat gone, Mat wide, Mat depth, Point heart, double waist, (int Left, int Right) sides)
    {
        using Mat deep = new();
        Cv2.Compare(depth, new Scalar(waist), deep, CmpTypes.GT);
        using Mat labels = new();
        using Mat statistics = new();
        using Mat centroids = new();
        int count = Cv2.ConnectedComponentsWithStats(deep, labels, statistics, centroids, PixelConnectivity.Connectivity8);
        int own = labels.AsRow<int>(heart.Y)[heart.X];
        for (int i = 1; i < count; i++)
        {
            ReadOnlySpan<int> box = statistics.AsRow<int>(i);
            int left = box[(int)ConnectedComponentsTypes.Left];
            bool runsOut = left < sides.Left || left + box[(int)ConnectedComponentsTypes.Width] > sides.Right;
            if (i == own || !runsOut)
            {
                continue;
            }

            using Mat part = new();
            Cv2.Compare(labels, new Scalar(i), part, CmpTypes.EQ);
            Cv2.MinMaxLoc(depth, out double _, out double deepest, out Point _, out Point place, part);
            if (deepest >= LeastRatio * waist && gone.AsRow<byte>(place.Y)[place.X] == 0)
            {
                using Mat mine = new();
                Cv2.Compare(labels, new Scalar(own), mine, CmpTypes.EQ);
                using Mat nearer = NearerTo(part, mine);
                Cv2.BitwiseAnd(nearer, wide, nearer);
                gone.SetTo(Scalar.All(255), nearer);
            }
        }
    }

    private static Mat NearerTo(Mat part, Mat other)
    {
        using Mat toPart = Away(part);
        using Mat toOther = Away(other);
        Mat nearer = new();
        Cv2.Compare(toPart, toOther, nearer, CmpTypes.LT);
        return nearer;
    }

    private static Mat Away(Mat part)
    {
        using Mat outside = new();
        Cv2.BitwiseNot(part, outside);
        Mat away = new();
        Cv2.DistanceTransform(outside, away, DistanceTypes.L2, DistanceTransformMasks.Mask5);
        return away;
    }
}
