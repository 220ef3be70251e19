using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Learned;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>
/// Where the outline network sees leaf in a photo without a sheet. It looks at the photo as it was taught: long side
/// 512 pixels.
/// </summary>
internal static class LearnedOutline
{
    private const int LongSidePx = 512;

    /// <summary>Chance of leaf at each pixel, 0..1, 32-bit floats; the caller disposes it.</summary>
    /// <param name="bgr">Small copy, 8-bit B, G, R.</param>
    /// <param name="network">The outline network.</param>
    /// <param name="size">Size of the result.</param>
    public static Mat Chance(Mat bgr, Network network, Size size)
    {
        double scale = LongSidePx / (double)Math.Max(bgr.Cols, bgr.Rows);
        using Mat small = new();
        Cv2.Resize(bgr, small, default, scale, scale, scale < 1 ? InterpolationFlags.Area : InterpolationFlags.Linear);
        using Planes planes = Planes.Of(small, null);
        using Mat answer = new(small.Size(), MatType.CV_32FC1);
        (int rows, int cols) = (small.Rows, small.Cols);
        network.Run(planes.Values, planes.Channels, planes.Size, outputs =>
        {
            ReadOnlySpan<float> leaf = outputs[0].Span;
            for (int y = 0; y < rows; y++)
            {
                leaf.Slice(y * planes.Size.Width, cols).CopyTo(answer.AsRow<float>(y));
            }
        });
        Mat chance = new();
        Cv2.Resize(answer, chance, size, 0, 0, InterpolationFlags.Linear);
        return chance;
    }
}
