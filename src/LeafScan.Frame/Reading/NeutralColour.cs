using OpenCvSharp;

namespace LeafScan.Frame.Reading;

/// <summary>What is grey in the light of a photo: paper and ink, not plants.</summary>
internal static class NeutralColour
{
    // Near black the channels scatter: a little is forgiven.
    private const double Forgiven = 12;

    /// <summary>255 where the colour is grey once <paramref name="white"/> is made white; the caller disposes it.</summary>
    /// <param name="bgr">8-bit B, G, R; not changed.</param>
    /// <param name="white">Colour of white paper in this light, B, G, R.</param>
    /// <param name="mostChroma">Difference between the channels that still counts as grey, as a share of the largest, 0 to 1.</param>
    public static Mat Mask(Mat bgr, Scalar white, double mostChroma)
    {
        using Mat balanced = new();
        bgr.ConvertTo(balanced, MatType.CV_32FC3);
        Cv2.Multiply(balanced, new Scalar(255 / Math.Max(1, white.Val0), 255 / Math.Max(1, white.Val1), 255 / Math.Max(1, white.Val2)), balanced);
        Mat[] planes = Cv2.Split(balanced);
        try
        {
            using Mat most = new();
            using Mat least = new();
            Cv2.Max(planes[0], planes[1], most);
            Cv2.Max(most, planes[2], most);
            Cv2.Min(planes[0], planes[1], least);
            Cv2.Min(least, planes[2], least);
            using Mat limit = new();
            most.ConvertTo(limit, -1, 1 - mostChroma, -Forgiven);
            Mat neutral = new();
            Cv2.Compare(least, limit, neutral, CmpTypes.GE);
            return neutral;
        }
        finally
        {
            foreach (Mat plane in planes)
            {
                plane.Dispose();
            }
        }
    }
}
