using OpenCvSharp;

namespace LeafScan.Leaves.Needles;

/// <summary>How much fine detail lies around each pixel: needles in focus have much, a background out of focus none.</summary>
internal static class Sharpness
{
    /// <summary>Mean strength of detail of one to two pixels, ln units of the level, 32-bit float.</summary>
    /// <param name="level">ln of the luminance.</param>
    /// <param name="reachPx">How far around a pixel it is averaged, pixels.</param>
    /// <param name="finestPx">Detail finer than this is left out as noise, pixels; coarser than two and a half times this as shade.</param>
    public static Mat Of(Mat level, double reachPx, double finestPx = 0.8)
    {
        using Mat fine = new();
        using Mat coarse = new();
        Cv2.GaussianBlur(level, fine, default, finestPx);
        Cv2.GaussianBlur(level, coarse, default, 2.5 * finestPx);
        Mat sharp = new();
        Cv2.Absdiff(fine, coarse, sharp);
        Cv2.GaussianBlur(sharp, sharp, default, reachPx);
        return sharp;
    }
}
