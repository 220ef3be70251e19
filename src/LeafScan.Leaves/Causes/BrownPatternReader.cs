using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Causes;

/// <summary>Reads number, size, place and rim of brown patches.</summary>
internal static class BrownPatternReader
{
    /// <summary>Pattern of one leaf.</summary>
    /// <param name="mask">255 leaf, 0 elsewhere.</param>
    /// <param name="codes">Mask codes.</param>
    /// <param name="brown">255 where the codes say brown.</param>
    /// <param name="speckPx">Width of a speck: what is not clearly larger is no patch.</param>
    public static BrownPattern Read(Mat mask, Mat codes, Mat brown, double speckPx)
    {
        double all = Cv2.CountNonZero(brown);
        if (all == 0)
        {
            return new BrownPattern(0, 0, 0, 0);
        }

        double length = Math.Max(mask.Cols, mask.Rows);
        using Mat labels = new();
        using Mat stats = new();
        using Mat centres = new();
        int count = Cv2.ConnectedComponentsWithStats(brown, labels, stats, centres);
        List<double> widths = [];
        for (int i = 1; i < count; i++)
        {
            int area = stats.AsRow<int>(i)[(int)ConnectedComponentsTypes.Area];
            if (area > Math.Min(1.5 * speckPx * speckPx, 0.0002 * length * length))
            {
                widths.Add(Math.Sqrt(4 * area / Math.PI));
            }
        }

        int rim = Math.Max(3, (int)(0.015 * length));
        using Mat inner = new();
        using Mat kernel = Cv2.GetStructuringElement(MorphShapes.Rect, new Size((2 * rim) + 1, (2 * rim) + 1));
        Cv2.Erode(mask, inner, kernel, null, 1, BorderTypes.Constant, Scalar.All(0));
        using Mat atMargin = brown.Clone();
        atMargin.SetTo(Scalar.All(0), inner);
        return new BrownPattern(widths.Count, FeatureReader.Median(widths) / length, Cv2.CountNonZero(atMargin) / all, Halo(mask, codes, brown, rim));
    }

    private static double Halo(Mat mask, Mat codes, Mat brown, int rimPx)
    {
        using Mat ring = FeatureReader.Grown(brown, rimPx);
        Cv2.BitwiseAnd(ring, mask, ring);
        ring.SetTo(Scalar.All(0), brown);
        double all = Cv2.CountNonZero(ring);
        using Mat pale = new();
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Speck), Scalar.All((int)MaskCode.Yellowed), pale);
        Cv2.BitwiseAnd(pale, ring, pale);
        return all > 0 ? Cv2.CountNonZero(pale) / all : 0;
    }
}
