using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Chewing;

/// <summary>
/// How deep each place of a margin lies under the outline that a disc rolled along the leaf from outside would draw
/// (a morphological closing). Done with two distance maps, so that the time does not grow with the disc.
/// </summary>
internal static class Envelope
{
    /// <summary>Depths in pixels of the mask, one for each point of <paramref name="margin"/>.</summary>
    /// <param name="mask">255 leaf, 0 elsewhere.</param>
    /// <param name="margin">The contour of the mask, as OpenCV gives it.</param>
    /// <param name="radiusPx">Radius of the disc.</param>
    public static double[] Depths(Mat mask, Point[] margin, double radiusPx)
    {
        int pad = (int)Math.Ceiling(radiusPx) + 3;
        using Mat ground = new();
        Cv2.CopyMakeBorder(mask, ground, pad, pad, pad, pad, BorderTypes.Constant, Scalar.All(0));
        Cv2.BitwiseNot(ground, ground);
        using Mat away = new();
        Cv2.DistanceTransform(ground, away, DistanceTypes.L2, DistanceTransformMasks.Precise);

        // Places further from the leaf than the radius are where the disc's centre can be.
        using Mat reached = new();
        Cv2.Threshold(away, away, radiusPx, 255, ThresholdTypes.BinaryInv);
        away.ConvertTo(reached, MatType.CV_8UC1);
        Cv2.DistanceTransform(reached, away, DistanceTypes.L2, DistanceTransformMasks.Precise);
        double[] depths = new double[margin.Length];
        for (int i = 0; i < margin.Length; i++)
        {
            ReadOnlySpan<float> row = away.AsRow<float>(margin[i].Y + pad);
            depths[i] = Math.Max(0, row[margin[i].X + pad] - radiusPx - 1);
        }

        return depths;
    }
}
