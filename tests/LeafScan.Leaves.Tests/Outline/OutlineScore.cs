using LeafScan.Leaves.Outline;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Outline;

/// <summary>Compares found leaves with the truth: area of the intersection over that of the union.</summary>
internal static class OutlineScore
{
    public static double Of(OutlineResult found, Mat truth)
    {
        using Mat mask = Together(found, truth.Size());
        using Mat both = new();
        using Mat any = new();
        Cv2.BitwiseAnd(mask, truth, both);
        Cv2.BitwiseOr(mask, truth, any);
        return Cv2.CountNonZero(both) / (double)Math.Max(1, Cv2.CountNonZero(any));
    }

    public static Mat Together(OutlineResult found, Size size)
    {
        Mat mask = new(size, MatType.CV_8UC1, Scalar.All(0));
        foreach (FoundLeaf leaf in found.Leaves)
        {
            using Mat place = new(mask, leaf.Box);
            Cv2.BitwiseOr(place, leaf.Mask, place);
        }

        return mask;
    }

    /// <summary>The value below which the given share of values lies.</summary>
    public static double Quantile(IEnumerable<double> values, double share)
    {
        double[] sorted = values.Order().ToArray();
        return sorted[(int)Math.Round(share * (sorted.Length - 1))];
    }
}
