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
    // Gaussian widths in pixels; a disc of diameter d answers most at about sigma = d / 2.6.
    private static readonly double[] Sigmas = [1.2, 1.7, 2.4, 3.4, 4.8];

    private const double DiameterPerSigma = 2.6;

    // A difference of Gaussians (ratio 1.6) over a disc of its own size answers with about 0.3 of the disc's contrast.
    private const float StrengthPerResponse = 3.3f;

    // Noise of a quiet blade never counts as more than this strength, so that a leaf covered in specks does not hide them.
    private const float NoiseCeiling = 0.025f;

    /// <summary>Specks in patch pixels, with the mask of what they cover.</summary>
    /// <param name="patch">The leaf.</param>
    /// <param name="bleach">Bleach strength against the whole leaf's own colour.</param>
    /// <param name="yellowed">255 where tissue is diffusely yellowed.</param>
    /// <param name="covered">Receives 255 where a speck lies; the caller disposes it.</param>
    /// <param name="options">Thresholds.</param>
    public static List<SpeckMark> Find(LeafPatch patch, Mat bleach, Mat yellowed, TissueOptions options, out Mat covered)
    {
        using Mat weight = MaskedBlur.Weights(patch.Mask);
        using Mat strength = SpeckStrength.Of(patch, weight, bleach);
        using Mat best = new(patch.Mask.Size(), MatType.CV_32FC1, Scalar.All(0));
        using Mat bestLevel = new(patch.Mask.Size(), MatType.CV_8UC1, Scalar.All(0));
        using Mat amplitude = new(patch.Mask.Size(), MatType.CV_32FC1, Scalar.All(0));
        for (int level = 0; level < Sigmas.Length; level++)
        {
            using Mat response = Response(strength, weight, Sigmas[level]);
            float noise = Math.Min(QuietBlocks.Noise(response, patch.Mask), NoiseCeiling);
            using Mat ratio = new();
            response.ConvertTo(ratio, MatType.CV_32FC1, 1 / Math.Max(noise, 1e-4f));
            using Mat better = new();
            Cv2.Compare(ratio, best, better, CmpTypes.GT);
            ratio.CopyTo(best, better);
            response.CopyTo(amplitude, better);
            bestLevel.SetTo(Scalar.All(level), better);
        }

        return Collect(patch, strength, best, bestLevel, amplitude, yellowed, options, out covered);
    }

    private static Mat Response(Mat strength, Mat weight, double sigma)
    {
        using Mat near = MaskedBlur.Gaussian(strength, weight, sigma);
        using Mat far = MaskedBlur.Gaussian(strength, weight, sigma * 1.6);
        Mat response = new();
        Cv2.Subtract(near, far, response);
        return response;
    }

    private static List<SpeckMark> Collect(LeafPatch patch, Mat strength, Mat best, Mat bestLevel, Mat amplitude, Mat yellowed, TissueOptions options, out Mat covered)
    {
        using Mat kernel = Cv2.GetStructuringElement(MorphShapes.Rect, new Size(5, 5));
        using Mat highest = new();
        Cv2.Dilate(best, highest, kernel);
        using Mat inner = new();
        // The margin mixes with what lies behind over two pixels.
        using Mat edge = Cv2.GetStructuringElement(MorphShapes.Rect, new Size(5, 5));
        Cv2.Erode(patch.Mask, inner, edge);
        using Mat smooth = new();
        Cv2.GaussianBlur(strength, smooth, default, 0.7);
        List<Candidate> candidates = [];
        int rows = best.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> b = best.AsRow<float>(y);
            ReadOnlySpan<float> h = highest.AsRow<float>(y);
            ReadOnlySpan<float> a = amplitude.AsRow<float>(y);
            ReadOnlySpan<byte> m = inner.AsRow<byte>(y);
            ReadOnlySpan<byte> l = bestLevel.AsRow<byte>(y);
            for (int x = 0; x < b.Length; x++)
            {
                if (m[x] != 0 && b[x] >= h[x] && b[x] > options.SpeckSignalToNoise && a[x] * StrengthPerResponse > options.SpeckStrength)
                {
                    candidates.Add(new Candidate(x, y, Sigmas[l[x]] * DiameterPerSigma, a[x]));
                }
            }
        }

        candidates.Sort((p, q) => q.Response.CompareTo(p.Response));
        return Accept(candidates, smooth, patch.Mask, yellowed, out covered);
    }

    // Strongest first; a flat-topped speck answers with several peaks, of which the first takes the place.
    private static List<SpeckMark> Accept(List<Candidate> candidates, Mat smooth, Mat mask, Mat yellowed, out Mat covered)
    {
        covered = new Mat(mask.Size(), MatType.CV_8UC1, Scalar.All(0));
        using Mat taken = new(mask.Size(), MatType.CV_8UC1, Scalar.All(0));
        List<SpeckMark> specks = [];
        SpeckShape shape = new(smooth, mask, yellowed);
        foreach (Candidate c in candidates)
        {
            if (taken.AsRow<byte>(c.Y)[c.X] != 0 || !shape.Fill(covered, c.X, c.Y, c.DiameterPx, out int area))
            {
                continue;
            }

            specks.Add(new SpeckMark(c.X, c.Y, 2 * Math.Sqrt(area / Math.PI)));
            Cv2.Circle(taken, new Point(c.X, c.Y), Math.Max(1, (int)Math.Ceiling(c.DiameterPx * 0.5)), Scalar.All(255), -1);
        }

        return specks;
    }

    private readonly record struct Candidate(int X, int Y, double DiameterPx, float Response);
}
