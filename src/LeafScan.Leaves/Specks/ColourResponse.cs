using LeafScan.Leaves.Baseline;
using LeafScan.Photos.Colour;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks;

/// <summary>How every pixel of a leaf answers to the colour filter for pale specks, at the size that answers best. Owns its pictures.</summary>
internal sealed class ColourResponse : IDisposable
{
    // Gaussian widths in pixels; a disc of diameter d answers most at about sigma = d / 2.6.
    private static readonly double[] Sigmas = [1.2, 1.7, 2.4, 3.4, 4.8];

    private const double DiameterPerSigma = 2.6;

    // Noise of a quiet blade never counts as more than this strength, so that a leaf covered in specks does not hide them.
    private const float NoiseCeiling = 0.025f;

    private ColourResponse(Mat lab, Mat strength, Size size)
    {
        Lab = lab;
        Strength = strength;
        SignalToNoise = new Mat(size, MatType.CV_32FC1, Scalar.All(0));
        Level = new Mat(size, MatType.CV_8UC1, Scalar.All(0));
        Amplitude = new Mat(size, MatType.CV_32FC1, Scalar.All(0));
    }

    /// <summary>The patch in CIE L*a*b*, 32-bit float.</summary>
    public Mat Lab { get; }

    /// <summary>Strength of bleaching against the near tissue; see <see cref="SpeckStrength"/>.</summary>
    public Mat Strength { get; }

    /// <summary>Response over the noise of the leaf's quiet parts, at the best size; 0 or more.</summary>
    public Mat SignalToNoise { get; }

    /// <summary>Number of the best size; see <see cref="DiameterPx"/>.</summary>
    public Mat Level { get; }

    /// <summary>Response at the best size, in strength.</summary>
    public Mat Amplitude { get; }

    /// <summary>Diameter, in pixels, of the discs that a size answers to.</summary>
    public static double DiameterPx(int level) => Sigmas[level] * DiameterPerSigma;

    /// <summary>Computes the response.</summary>
    /// <param name="patch">The leaf.</param>
    /// <param name="bleach">Bleach strength against the whole leaf's own colour.</param>
    public static ColourResponse Of(LeafPatch patch, Mat bleach)
    {
        using Mat weight = MaskedBlur.Weights(patch.Mask);
        Mat lab = LabPicture.Of(patch.Bgr);
        ColourResponse all = new(lab, SpeckStrength.Of(patch, lab, weight, bleach), patch.Mask.Size());
        for (int level = 0; level < Sigmas.Length; level++)
        {
            using Mat response = Differences(all.Strength, weight, Sigmas[level]);
            float noise = Math.Min(QuietBlocks.Noise(response, patch.Mask), NoiseCeiling);
            using Mat ratio = new();
            response.ConvertTo(ratio, MatType.CV_32FC1, 1 / Math.Max(noise, 1e-4f));
            using Mat better = new();
            Cv2.Compare(ratio, all.SignalToNoise, better, CmpTypes.GT);
            ratio.CopyTo(all.SignalToNoise, better);
            response.CopyTo(all.Amplitude, better);
            all.Level.SetTo(Scalar.All(level), better);
        }

        return all;
    }

    /// <inheritdoc />
    public void Dispose()
    {
        Lab.Dispose();
        Strength.Dispose();
        SignalToNoise.Dispose();
        Level.Dispose();
        Amplitude.Dispose();
    }

    private static Mat Differences(Mat strength, Mat weight, double sigma)
    {
        using Mat near = MaskedBlur.Gaussian(strength, weight, sigma);
        using Mat far = MaskedBlur.Gaussian(strength, weight, sigma * 1.6);
        Mat response = new();
        Cv2.Subtract(near, far, response);
        return response;
    }
}
