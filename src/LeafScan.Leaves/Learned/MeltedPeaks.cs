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

    /// <summary>Peaks and shoulders on speck pixels, in patch pixels, the clearest first.</summary>
    /// <param name="scores">The network's answer.</param>
    /// <param name="codes">Mask codes of the leaf.</param>
    public static List<SpeckMark> Find(TissueScores scores, Mat codes)
    {
        using Mat centres = new(scores.Size, MatType.CV_32FC1);
        for (int y = 0; y < scores.Size.Height; y++)
        {
            scores.Centres.Slice(y * scores.Size.Width, scores.Size.Width).CopyTo(centres.AsRow<float>(y));
        }

        using Mat soft = new();
        Cv2.GaussianBlur(centres, soft, default, BlurPx);
        Cv2.Subtract(centres, soft, centres);
        float[] sharp = new float[scores.Size.Width * scores.Size.Height];
        for (int y = 0; y < scores.Size.Height; y++)
        {
            centres.AsRow<float>(y).CopyTo(sharp.AsSpan(y * scores.Size.Width));
        }

        using Mat speck = new();
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Speck), Scalar.All((int)MaskCode.Speck), speck);
        TissueScores sharpened = new(scores.ClassScores, sharp, scores.Diameters, scores.Size, scores.Part);
        List<SpeckMark> peaks = SpeckPeaks.Find(sharpened, speck, LeastHeight);
        (int left, int top, int width) = (scores.Part.X, scores.Part.Y, scores.Size.Width);
        return [.. peaks.OrderByDescending(p => sharp[(((int)Math.Round(p.Y) - top) * width) + (int)Math.Round(p.X) - left])];
    }
}
