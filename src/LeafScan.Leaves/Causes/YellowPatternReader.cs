using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Causes;

/// <summary>Reads how yellow lies on a leaf: even, between green veins, about specks or about spots.</summary>
internal static class YellowPatternReader
{
    // Veins and the green along them, as a share of the leaf's length.
    private const double VeinToLeaf = 0.03;

    /// <summary>Pattern of one leaf.</summary>
    public static YellowPattern Read(IReadOnlyList<SpeckMark> specks, Mat yellow, Mat brown, double reachPx)
    {
        double all = Cv2.CountNonZero(yellow);
        if (all == 0)
        {
            return new YellowPattern(0, 0, 0, 0);
        }

        using Mat near = new(yellow.Size(), MatType.CV_8UC1, Scalar.All(0));
        foreach (SpeckMark speck in specks)
        {
            Cv2.Circle(near, new Point((int)speck.X, (int)speck.Y), (int)(3 * reachPx), Scalar.All(255), -1);
        }

        Cv2.BitwiseAnd(near, yellow, near);
        double length = Math.Max(yellow.Cols, yellow.Rows);
        using Mat aboutBrown = FeatureReader.Grown(brown, 0.03 * length);
        Cv2.BitwiseAnd(aboutBrown, yellow, aboutBrown);

        // Closing fills what is narrower than its kernel: green lines between two yellow fields.
        int wide = Math.Max(3, (int)(VeinToLeaf * length) | 1);
        using Mat filled = new RoundKernel(wide).CloseMarks(yellow);
        double closed = Cv2.CountNonZero(filled);
        using Mat labels = new();
        int patches = Cv2.ConnectedComponents(yellow, labels) - 1;
        return new YellowPattern(Cv2.CountNonZero(near) / all, Cv2.CountNonZero(aboutBrown) / all, (closed - all) / closed, patches);
    }
}
