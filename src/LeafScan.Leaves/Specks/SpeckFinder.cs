using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Tissue;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks;

/// <summary>
/// Finds pale specks at several sizes with a matched colour filter (linear discriminant from the leaf's own colour to
/// bleached tissue, whitened by the leaf's own noise) and differences of Gaussians (Lowe 2004), strongest first.
/// Specks are paler and redder than the tissue around them.
/// </summary>
internal static class SpeckFinder
{
    // A difference of Gaussians (ratio 1.6) over a disc of its own size answers with about 0.3 of the disc's contrast.
    private const float StrengthPerResponse = 3.3f;

    /// <summary>Specks in patch pixels, with the mask of what they cover.</summary>
    /// <param name="patch">The leaf.</param>
    /// <param name="bleach">Bleach strength against the whole leaf's own colour.</param>
    /// <param name="yellowed">255 where tissue is diffusely yellowed.</param>
    /// <param name="covered">Receives 255 where a speck lies; the caller disposes it.</param>
    /// <param name="options">Thresholds.</param>
    public static List<SpeckMark> Find(LeafPatch patch, Mat bleach, Mat yellowed, TissueOptions options, out Mat covered)
    {
        using ColourResponse response = ColourResponse.Of(patch, bleach);
        using Mat smooth = Smooth(response.Strength);
        return Accept(Peaks(patch.Mask, response, options), smooth, patch.Mask, yellowed, out covered).ConvertAll(s => s.Mark);
    }

    /// <summary>Places that may be specks, strongest first.</summary>
    /// <param name="mask">255 leaf, 0 elsewhere.</param>
    /// <param name="response">The response.</param>
    /// <param name="options">Thresholds.</param>
    public static List<SpeckPeak> Peaks(Mat mask, ColourResponse response, TissueOptions options)
    {
        Mat best = response.SignalToNoise;
        using Mat kernel = Cv2.GetStructuringElement(MorphShapes.Rect, new Size(5, 5));
        using Mat highest = new();
        Cv2.Dilate(best, highest, kernel);
        using Mat inner = new();
        // The margin mixes with what lies behind over two pixels.
        using Mat edge = Cv2.GetStructuringElement(MorphShapes.Rect, new Size(5, 5));
        Cv2.Erode(mask, inner, edge);
        List<SpeckPeak> peaks = [];
        int rows = best.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> b = best.AsRow<float>(y);
            ReadOnlySpan<float> h = highest.AsRow<float>(y);
            ReadOnlySpan<byte> m = inner.AsRow<byte>(y);
            ReadOnlySpan<byte> l = response.Level.AsRow<byte>(y);
            for (int x = 0; x < b.Length; x++)
            {
                if (m[x] != 0 && b[x] >= h[x] && b[x] > options.SpeckSignalToNoise)
                {
                    float amplitude = response.Amplitude(b[x], l[x]);
                    if (amplitude * StrengthPerResponse > options.SpeckStrength)
                    {
                        peaks.Add(new SpeckPeak(x, y, ColourResponse.DiameterPx(l[x]), amplitude));
                    }
                }
            }
        }

        peaks.Sort((p, q) => q.Response.CompareTo(p.Response));
        return peaks;
    }

    /// <summary>The strength in which a speck's shape is grown; the caller disposes it.</summary>
    public static Mat Smooth(Mat strength)
    {
        Mat smooth = new();
        Cv2.GaussianBlur(strength, smooth, default, 0.7);
        return smooth;
    }

    /// <summary>The specks among peaks, each with the diameter of the filter that answered best; of a flat-topped one's several peaks the first takes the place.</summary>
    /// <param name="peaks">Peaks, strongest first.</param>
    /// <param name="smooth">See <see cref="Smooth"/>.</param>
    /// <param name="mask">255 leaf, 0 elsewhere.</param>
    /// <param name="yellowed">255 where tissue is diffusely yellowed.</param>
    /// <param name="covered">Receives 255 where a speck lies; the caller disposes it.</param>
    public static List<(SpeckMark Mark, double FilterPx)> Accept(IReadOnlyList<SpeckPeak> peaks, Mat smooth, Mat mask, Mat yellowed, out Mat covered)
    {
        covered = new Mat(mask.Size(), MatType.CV_8UC1, Scalar.All(0));
        using Mat taken = new(mask.Size(), MatType.CV_8UC1, Scalar.All(0));
        List<(SpeckMark, double)> specks = [];
        SpeckShape shape = new(smooth, mask, yellowed);
        foreach (SpeckPeak c in peaks)
        {
            if (taken.AsRow<byte>(c.Y)[c.X] != 0 || !shape.Fill(covered, c.X, c.Y, c.DiameterPx, out int area))
            {
                continue;
            }

            specks.Add((new SpeckMark(c.X, c.Y, 2 * Math.Sqrt(area / Math.PI)), c.DiameterPx));
            Cv2.Circle(taken, new Point(c.X, c.Y), Math.Max(1, (int)Math.Ceiling(c.DiameterPx * 0.5)), Scalar.All(255), -1);
        }

        return specks;
    }
}
