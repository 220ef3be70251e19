using OpenCvSharp;

namespace LeafScan.Leaves.Learned;

/// <summary>Asks the outline network, on a small copy of the photo, where there is leaf.</summary>
internal static class LearnedOutline
{
    /// <summary>Longest side of the copy the network sees; it was trained at this size.</summary>
    public const int LongSidePx = 512;

    /// <summary>Chance of leaf, 0..1, 32-bit float, at the size of the small copy.</summary>
    /// <param name="bgr">The photo, 8-bit B, G, R.</param>
    /// <param name="network">The outline network.</param>
    public static Mat Chance(Mat bgr, Network network)
    {
        double scale = LongSidePx / (double)Math.Max(bgr.Cols, bgr.Rows);
        Size size = new(Math.Max(1, (int)Math.Round(bgr.Cols * scale)), Math.Max(1, (int)Math.Round(bgr.Rows * scale)));
        using Mat small = new();
        Cv2.Resize(bgr, small, size, 0, 0, scale < 1 ? InterpolationFlags.Area : InterpolationFlags.Linear);
        using Planes planes = Planes.Of(small, null);
        Mat chance = new(size, MatType.CV_32FC1);
        network.Run(planes.Values, planes.Channels, planes.Size, outputs => FloatMap.Copy(outputs[0].Span, planes.Size, chance));
        return chance;
    }
}
