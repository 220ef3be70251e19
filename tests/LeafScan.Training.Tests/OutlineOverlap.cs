using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Training.Tests;

/// <summary>How well all outlines found in a photo cover what is leaf in truth.</summary>
internal static class OutlineOverlap
{
    /// <summary>Intersection over union, 0..1.</summary>
    /// <param name="photo">8-bit B, G, R.</param>
    /// <param name="codes">Truth by mask codes; chewed is no leaf.</param>
    /// <param name="network">The outline network, or null.</param>
    public static double Of(Mat photo, Mat codes, Network? network)
    {
        using Mat truth = Leaf(codes);
        using OutlineResult found = OutlineFinder.Find(photo, new OutlineOptions(), network, CancellationToken.None);
        using Mat mask = new(photo.Size(), MatType.CV_8UC1, Scalar.All(0));
        foreach (FoundLeaf leaf in found.Leaves)
        {
            using Mat part = mask.SubMat(leaf.Box);
            Cv2.BitwiseOr(part, leaf.Mask, part);
        }

        using Mat both = new();
        using Mat either = new();
        Cv2.BitwiseAnd(mask, truth, both);
        Cv2.BitwiseOr(mask, truth, either);
        return Cv2.CountNonZero(both) / (double)Math.Max(1, Cv2.CountNonZero(either));
    }

    private static Mat Leaf(Mat codes)
    {
        Mat leaf = new();
        Cv2.Compare(codes, Scalar.All(0), leaf, CmpTypes.GT);
        using Mat gone = new();
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Chewed), Scalar.All((int)MaskCode.Chewed), gone);
        leaf.SetTo(Scalar.All(0), gone);
        return leaf;
    }
}
