using OpenCvSharp;

namespace LeafScan.Leaves.Greenness;

/// <summary>Means over the marked pixels near each pixel.</summary>
internal static class MaskedMean
{
    /// <summary>Gaussian mean of a plane over marked pixels; towards 0 where none is near.</summary>
    /// <param name="plane">32-bit float.</param>
    /// <param name="weight">1 where a pixel counts, 0 elsewhere, 32-bit float.</param>
    /// <param name="reachPx">Reach, pixels.</param>
    public static Mat Of(Mat plane, Mat weight, double reachPx)
    {
        Mat sum = new();
        Cv2.Multiply(plane, weight, sum);
        Cv2.GaussianBlur(sum, sum, default, reachPx);
        using Mat share = new();
        Cv2.GaussianBlur(weight, share, default, reachPx);
        Cv2.Add(share, new Scalar(1e-3), share);
        Cv2.Divide(sum, share, sum);
        return sum;
    }
}
