using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves;

/// <summary>
/// Yellowed and browned patches that reach the margin. Where the outline is in doubt they may be no leaf at all: soil, a
/// finger, another leaf.
/// </summary>
internal static class RimPatches
{
    // So near to the margin counts as reaching it, in patch pixels.
    private const double ReachPx = 3;

    /// <summary>Share of the leaf in such patches, 0..1.</summary>
    /// <param name="codes">8-bit <see cref="MaskCode"/> of the leaf's patch.</param>
    /// <param name="mask">8-bit, same size: where the leaf is.</param>
    public static double ShareOf(Mat codes, Mat mask)
    {
        double leaf = Cv2.CountNonZero(mask);
        using Mat hurt = new();
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Yellowed), Scalar.All((int)MaskCode.Browned), hurt);
        if (leaf == 0 || Cv2.CountNonZero(hurt) == 0)
        {
            return 0;
        }

        using Mat padded = new();
        using Mat depth = new();
        Cv2.CopyMakeBorder(mask, padded, 1, 1, 1, 1, BorderTypes.Constant, Scalar.All(0));
        Cv2.DistanceTransform(padded, depth, DistanceTypes.L2, DistanceTransformMasks.Mask3);
        using Mat labels = new();
        int count = Cv2.ConnectedComponents(hurt, labels);
        long[] areas = new long[count];
        bool[] reaches = new bool[count];
        int rows = labels.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<int> names = labels.AsRow<int>(y);
            ReadOnlySpan<float> deep = depth.AsRow<float>(y + 1)[1..];
            for (int x = 0; x < names.Length; x++)
            {
                areas[names[x]]++;
                reaches[names[x]] |= deep[x] < ReachPx;
            }
        }

        long atRim = 0;
        for (int i = 1; i < count; i++)
        {
            atRim += reaches[i] ? areas[i] : 0;
        }

        return atRim / leaf;
    }
}
