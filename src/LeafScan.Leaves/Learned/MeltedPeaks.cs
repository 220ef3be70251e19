using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Specks.Judge;
using OpenCvSharp;

namespace LeafScan.Leaves.Learned;

/// <summary>
/// Where specks have run together the network's centre map has one hump for two or three of them, with shoulders. Taking a blurred
/// copy off the map makes peaks of the shoulders. They are too unsure to be counted (outside of merged fields one in five is a
/// speck), but good places for specks that a merged field is known to hold.
/// </summary>
internal static class MeltedPeaks
{
    // As wide as a centre is drawn in training for a speck of nine pixels.
    private const double BlurPx = 1.5;

    private const float LeastHeight = 0.005f;

    /// <summary>The map of centres less its blurred copy, which needs no verdict on specks.</summary>
    /// <param name="scores">The network's answer.</param>
    public static float[] Sharpened(TissueScores scores)
    {
        using Mat centres = new(scores.Size, MatType.CV_32FC1);
        ReadOnlySpan<float> map = scores.Centres;
        for (int y = 0; y < scores.Size.Height; y++)
        {
            map.Slice(y * scores.Size.Width, scores.Size.Width).CopyTo(centres.AsRow<float>(y));
        }

        using Mat soft = new();
        Cv2.GaussianBlur(centres, soft, default, BlurPx);
        Cv2.Subtract(centres, soft, centres);
        float[] sharp = new float[scores.Size.Width * scores.Size.Height];
        for (int y = 0; y < scores.Size.Height; y++)
        {
            centres.AsRow<float>(y).CopyTo(sharp.AsSpan(y * scores.Size.Width));
        }

        return sharp;
    }

    /// <summary>Peaks and shoulders on speck pixels, in patch pixels, the clearest first.</summary>
    /// <param name="scores">The network's answer.</param>
    /// <param name="sharp">See <see cref="Sharpened"/>.</param>
    /// <param name="codes">Mask codes of the leaf.</param>
    public static List<SpeckMark> Find(TissueScores scores, float[] sharp, Mat codes)
    {
        using Mat speck = new();
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Speck), Scalar.All((int)MaskCode.Speck), speck);
        List<SpeckMark> peaks = SpeckPeaks.Find(scores.WithCentres(sharp), speck, LeastHeight);
        (int left, int top, int width) = (scores.Part.X, scores.Part.Y, scores.Size.Width);
        return [.. peaks.OrderByDescending(p => sharp[(((int)Math.Round(p.Y) - top) * width) + (int)Math.Round(p.X) - left])];
    }
}
