using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>Draws the edge at full size: pixels near the small copy's edge are judged anew by <see cref="EdgeModel"/>.</summary>
internal static class EdgeRefiner
{
    /// <summary>Half width of the band judged anew, pixels of the small copy.</summary>
    private const int BandPx = 3;

    /// <summary>Pixels of the small copy that are judged anew, 8-bit.</summary>
    public static Mat Band(Mat mask)
    {
        using Mat disc = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size((2 * BandPx) + 1, (2 * BandPx) + 1));
        Mat band = new();
        Cv2.MorphologyEx(mask, band, MorphTypes.Gradient, disc);
        return band;
    }

    /// <summary>The mask at full size inside <paramref name="box"/>: 255 leaf, 0 rest.</summary>
    /// <param name="bgr">The photo, full size.</param>
    /// <param name="box">Part of the photo to draw.</param>
    /// <param name="mask">Small copy's mask.</param>
    /// <param name="band">Its band.</param>
    /// <param name="model">What parts leaf from background there.</param>
    public static Mat Draw(Mat bgr, Rect box, Mat mask, Mat band, EdgeModel model)
    {
        int[] column = new int[box.Width];
        for (int x = 0; x < column.Length; x++)
        {
            column[x] = Math.Min(mask.Cols - 1, (int)((x + box.X + 0.5) * mask.Cols / bgr.Cols));
        }

        Mat score = new(box.Size, MatType.CV_8UC1);
        Bands.Run(box.Height, (first, end) =>
        {
            for (int y = first; y < end; y++)
            {
                int sy = Math.Min(mask.Rows - 1, (int)((y + box.Y + 0.5) * mask.Rows / bgr.Rows));
                ReadOnlySpan<Vec3b> pixels = bgr.AsRow<Vec3b>(y + box.Y).Slice(box.X, box.Width);
                ReadOnlySpan<byte> inMask = mask.AsRow<byte>(sy);
                ReadOnlySpan<byte> inBand = band.AsRow<byte>(sy);
                ReadOnlySpan<Vec4f> weights = model.Weights.AsRow<Vec4f>(sy);
                Span<byte> to = score.AsRow<byte>(y);
                for (int x = 0; x < to.Length; x++)
                {
                    int sx = column[x];
                    if (inBand[sx] == 0)
                    {
                        to[x] = inMask[sx];
                        continue;
                    }

                    Vec4f w = weights[sx];
                    (float rg, float bg, float level) = ColourPlanes.Read(pixels[x]);

                    // The edge does not lie midway between both sides' means: without a limit the blur would push it to the nearer one.
                    float value = Math.Clamp((w.Item0 * rg) + (w.Item1 * bg) + (w.Item2 * level) + w.Item3, -0.5f, 0.5f);
                    float old = inMask[sx] != 0 ? 0.06f : -0.06f;
                    to[x] = (byte)Math.Clamp(128 + (150 * (value + old)), 0, 255);
                }
            }
        });

        double scale = bgr.Cols / (double)mask.Cols;

        // Enough against noise and no more: twice this filled the notches between teeth and narrow gaps between leaflets.
        Cv2.GaussianBlur(score, score, default, Math.Clamp(scale / 4, 0.7, 3));
        Cv2.Threshold(score, score, 127, 255, ThresholdTypes.Binary);
        return score;
    }
}
