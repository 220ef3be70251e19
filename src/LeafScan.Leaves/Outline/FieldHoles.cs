using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>
/// Patches inside the leaf of an ordinary photo: one is a hole when it is compact, even and of the colour that lies around the
/// leaf nearby. Brown and bleached spots are seldom all three and stay leaf.
/// </summary>
internal static class FieldHoles
{
    private const double LeastRadiusPx = 2;

    /// <summary>Fills every enclosed patch that is no hole.</summary>
    /// <param name="mask">255 leaf, 0 rest; changed.</param>
    /// <param name="planes">Colours, same size.</param>
    public static void Fill(Mat mask, ColourPlanes planes)
    {
        Cv2.FindContours(mask, out Point[][] contours, out HierarchyIndex[] tree, RetrievalModes.CComp, ContourApproximationModes.ApproxNone);
        using Mat outside = new(mask.Size(), MatType.CV_8UC1, Scalar.All(255));
        for (int i = 0; i < contours.Length; i++)
        {
            if (tree[i].Parent < 0)
            {
                Cv2.DrawContours(outside, contours, i, Scalar.All(0), -1);
            }
        }

        for (int i = 0; i < contours.Length; i++)
        {
            if (tree[i].Parent >= 0 && !IsHole(contours, i, mask, outside, planes))
            {
                Cv2.DrawContours(mask, contours, i, Scalar.All(255), -1);
            }
        }
    }

    private static bool IsHole(Point[][] contours, int index, Mat mask, Mat outside, ColourPlanes planes)
    {
        Rect box = Cv2.BoundingRect(contours[index]);
        using Mat own = new(mask.Size(), MatType.CV_8UC1, Scalar.All(0));
        Cv2.DrawContours(own, contours, index, Scalar.All(255), -1);
        Cv2.DrawContours(own, contours, index, Scalar.All(0), 1);
        using Mat depth = new();
        Cv2.DistanceTransform(own, depth, DistanceTypes.L2, DistanceTransformMasks.Mask3);
        Cv2.MinMaxLoc(depth, out _, out double inner);
        if (inner < LeastRadiusPx || Cv2.CountNonZero(own) > 4 * Math.PI * inner * inner)
        {
            return false;
        }

        using Mat core = new();
        Cv2.Compare(depth, new Scalar(0.45 * inner), core, CmpTypes.GT);
        int reach = Math.Max(mask.Cols, mask.Rows) / 5;
        using Mat near = new(mask.Size(), MatType.CV_8UC1, Scalar.All(0));
        Cv2.Rectangle(near, new Rect(box.X - reach, box.Y - reach, box.Width + (2 * reach), box.Height + (2 * reach)), Scalar.All(255), -1);
        Cv2.BitwiseAnd(near, outside, near);
        if (Cv2.CountNonZero(near) < 50)
        {
            return false;
        }

        double rg = Cv2.Mean(planes.RedToGreen, core).Val0 - Cv2.Mean(planes.RedToGreen, near).Val0;
        double bg = Cv2.Mean(planes.BlueToGreen, core).Val0 - Cv2.Mean(planes.BlueToGreen, near).Val0;
        Cv2.MeanStdDev(planes.Level, out Scalar level, out Scalar scatter, core);
        Cv2.MeanStdDev(planes.Level, out Scalar around, out Scalar aroundScatter, near);
        double light = level.Val0 - around.Val0;
        double distance = (((rg * rg) + (bg * bg)) / 0.04) + (light * light / 0.2);
        return distance < 1 && scatter.Val0 < Math.Max(0.15, aroundScatter.Val0);
    }
}
