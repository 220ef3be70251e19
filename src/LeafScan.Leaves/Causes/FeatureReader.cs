using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Tissue;
using OpenCvSharp;

namespace LeafScan.Leaves.Causes;

/// <summary>Reads the features that causes are judged by from a leaf's tissue map.</summary>
internal static class FeatureReader
{
    /// <summary>Features of one leaf.</summary>
    public static LeafFeatures Read(JudgedLeaf leaf, LeafShares shares, int bites, int holes)
    {
        (LeafPatch patch, TissueMap tissue) = (leaf.Patch, leaf.Tissue);
        double length = Math.Max(patch.Mask.Cols, patch.Mask.Rows);
        double diameter = Median(tissue.Specks);
        (int patches, double atMargin) = Brown(patch, tissue.Codes, Math.Max(diameter, 5));
        return new LeafFeatures
        {
            Shares = shares,
            Texture = leaf.Texture,
            SpecksTooFine = leaf.SpecksTooFine,
            SpeckCount = tissue.Specks.Count,
            SpeckDiameterToLeaf = diameter / length,
            BrownPatchCount = patches,
            BrownAtMarginShare = atMargin,
            YellowNearSpecksShare = YellowNearSpecks(tissue, Math.Max(diameter, 5)),
            BiteCount = bites,
            HoleCount = holes,
        };
    }

    private static double Median(IReadOnlyList<SpeckMark> specks)
    {
        if (specks.Count == 0)
        {
            return 0;
        }

        double[] sorted = specks.Select(s => s.DiameterPx).Order().ToArray();
        return sorted[sorted.Length / 2];
    }

    private static (int Patches, double AtMargin) Brown(LeafPatch patch, Mat codes, double speckDiameter)
    {
        using Mat brown = new();
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Browned), Scalar.All((int)MaskCode.Browned), brown);
        double all = Cv2.CountNonZero(brown);
        if (all == 0)
        {
            return (0, 0);
        }

        using Mat labels = new();
        using Mat stats = new();
        using Mat centres = new();
        int count = Cv2.ConnectedComponentsWithStats(brown, labels, stats, centres);
        int patches = 0;
        for (int i = 1; i < count; i++)
        {
            if (stats.At<int>(i, (int)ConnectedComponentsTypes.Area) > 1.5 * speckDiameter * speckDiameter)
            {
                patches++;
            }
        }

        int rim = Math.Max(3, (int)(0.015 * Math.Max(patch.Mask.Cols, patch.Mask.Rows)));
        using Mat inner = new();
        using Mat kernel = Cv2.GetStructuringElement(MorphShapes.Rect, new Size((2 * rim) + 1, (2 * rim) + 1));
        Cv2.Erode(patch.Mask, inner, kernel, null, 1, BorderTypes.Constant, Scalar.All(0));
        brown.SetTo(Scalar.All(0), inner);
        return (patches, Cv2.CountNonZero(brown) / all);
    }

    private static double YellowNearSpecks(TissueMap tissue, double speckDiameter)
    {
        using Mat yellow = new();
        Cv2.InRange(tissue.Codes, Scalar.All((int)MaskCode.Yellowed), Scalar.All((int)MaskCode.Yellowed), yellow);
        double all = Cv2.CountNonZero(yellow);
        if (all == 0)
        {
            return 0;
        }

        using Mat near = new(yellow.Size(), MatType.CV_8UC1, Scalar.All(0));
        foreach (SpeckMark speck in tissue.Specks)
        {
            Cv2.Circle(near, new Point((int)speck.X, (int)speck.Y), (int)(3 * speckDiameter), Scalar.All(255), -1);
        }

        Cv2.BitwiseAnd(near, yellow, near);
        return Cv2.CountNonZero(near) / all;
    }
}
