using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Causes;

/// <summary>Reads the features that causes are judged by from a leaf's tissue map.</summary>
internal static class FeatureReader
{
    /// <summary>Features of one leaf, without its shares, bites and holes.</summary>
    public static LeafFeatures Read(JudgedLeaf leaf)
    {
        double diameter = Median(leaf.Tissue.Specks.Select(s => s.DiameterPx));
        double reach = Math.Max(diameter, 5);
        using Mat yellow = Of(leaf.Tissue.Codes, MaskCode.Yellowed);
        using Mat brown = Of(leaf.Tissue.Codes, MaskCode.Browned);
        SpeckPattern? specks = null;
        YellowPattern? yellowed = null;
        BrownPattern? browned = null;
        Bands.Both(
            () => specks = SpeckPatternReader.Read(leaf, brown, diameter),
            () =>
            {
                yellowed = YellowPatternReader.Read(leaf.Tissue.Specks, yellow, brown, reach);
                browned = BrownPatternReader.Read(leaf.Patch.Mask, leaf.Tissue.Codes, brown, reach);
            });
        return new LeafFeatures { Texture = leaf.Texture, FewPixels = leaf.FewPixels, Specks = specks!, Yellow = yellowed!, Brown = browned! };
    }

    /// <summary>The middle value; 0 of nothing.</summary>
    internal static double Median(IEnumerable<double> values)
    {
        double[] sorted = values.Order().ToArray();
        return sorted.Length == 0 ? 0 : sorted[sorted.Length / 2];
    }

    /// <summary>Grows a mask by some pixels each way.</summary>
    internal static Mat Grown(Mat mask, double byPx)
    {
        int side = (2 * Math.Max(1, (int)Math.Round(byPx))) + 1;
        using Mat kernel = Cv2.GetStructuringElement(MorphShapes.Rect, new Size(side, side));
        Mat grown = new();
        Cv2.Dilate(mask, grown, kernel);
        return grown;
    }

    private static Mat Of(Mat codes, MaskCode code)
    {
        Mat hit = new();
        Cv2.InRange(codes, Scalar.All((int)code), Scalar.All((int)code), hit);
        return hit;
    }
}
