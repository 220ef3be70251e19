using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>
/// Cuts a neighbouring leaf off at the narrow place where it touches the main one: broad cores are what is left when the
/// shape is worn down, and every pixel goes to the core nearest to it.
/// </summary>
internal static class NeighbourParting
{
    /// <summary>A core is another leaf when it is at least this much wider than the neck that was worn away.</summary>
    private const double WiderThanNeck = 1.7;

    /// <summary>A core this small beside the main one is a lobe or a stalk, not another leaf; share of the main core.</summary>
    private const double LeastCore = 0.04;

    /// <summary>How far the shape is worn down, shares of its greatest half width; narrow necks first.</summary>
    private static readonly double[] Wear = [0.15, 0.22, 0.3, 0.42];

    /// <summary>Removes neighbours from the mask in place.</summary>
    /// <param name="mask">255 leaf, 0 rest; one piece.</param>
    public static void CutOff(Mat mask)
    {
        foreach (double wear in Wear)
        {
            CutOff(mask, wear);
        }
    }

    private static void CutOff(Mat mask, double wear)
    {
        using Mat depth = new();
        Cv2.DistanceTransform(mask, depth, DistanceTypes.L2, DistanceTransformMasks.Mask5);
        Cv2.MinMaxLoc(depth, out _, out double most);
        using Mat cores = new();
        Cv2.Compare(depth, new Scalar(wear * most), cores, CmpTypes.GT);
        using Mat labels = new();
        using Mat stats = new();
        using Mat centroids = new();
        int count = Cv2.ConnectedComponentsWithStats(cores, labels, stats, centroids, PixelConnectivity.Connectivity8);
        if (count <= 2)
        {
            return;
        }

        int main = MainCore(stats, centroids, count, mask.Size());
        int mainArea = stats.AsRow<int>(main)[4];
        using Mat own = new();
        Cv2.InRange(labels, new Scalar(main), new Scalar(main), own);
        using Mat others = new(mask.Size(), MatType.CV_8UC1, Scalar.All(0));
        using Mat one = new();
        for (int i = 1; i < count; i++)
        {
            if (i == main || stats.AsRow<int>(i)[4] < LeastCore * mainArea)
            {
                continue;
            }

            Cv2.InRange(labels, new Scalar(i), new Scalar(i), one);
            Cv2.MinMaxLoc(depth, out _, out double wide, out _, out _, one);
            if (wide > WiderThanNeck * wear * most || wear == Wear[^1])
            {
                Cv2.BitwiseOr(others, one, others);
            }
        }

        if (Cv2.CountNonZero(others) == 0)
        {
            return;
        }

        using Mat toOwn = DistanceTo(own);
        using Mat toOthers = DistanceTo(others);
        using Mat foreign = new();
        Cv2.Compare(toOthers, toOwn, foreign, CmpTypes.LT);
        mask.SetTo(Scalar.All(0), foreign);
    }

    private static Mat DistanceTo(Mat core)
    {
        using Mat away = new();
        Cv2.BitwiseNot(core, away);
        Mat distance = new();
        Cv2.DistanceTransform(away, distance, DistanceTypes.L2, DistanceTransformMasks.Mask5);
        return distance;
    }

    // Large and near the middle.
    private static int MainCore(Mat stats, Mat centroids, int count, Size frame)
    {
        int best = 1;
        double most = 0;
        for (int i = 1; i < count; i++)
        {
            ReadOnlySpan<double> at = centroids.AsRow<double>(i);
            double u = ((2 * at[0]) / frame.Width) - 1;
            double v = ((2 * at[1]) / frame.Height) - 1;
            double weight = stats.AsRow<int>(i)[4] * Math.Exp(-((u * u) + (v * v)) / 0.3);
            (best, most) = weight > most ? (i, weight) : (best, most);
        }

        return best;
    }
}
