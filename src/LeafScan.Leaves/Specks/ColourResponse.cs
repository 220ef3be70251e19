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

    // From this width on half the size shows all there is to see, in an eighth of the time.
    private const double HalfSizeFromSigma = 3;

    private ColourResponse(Size size)
    {
        Lab = new Mat(size, MatType.CV_32FC3);
        Strength = new Mat(size, MatType.CV_32FC1, Scalar.All(0));
        SignalToNoise = new Mat(size, MatType.CV_32FC1, Scalar.All(0));
        Level = new Mat(size, MatType.CV_8UC1, Scalar.All(0));
        Amplitude = new Mat(size, MatType.CV_32FC1, Scalar.All(0));
    }

    /// <summary>The patch in CIE L*a*b*, 32-bit float; only near the leaf, see <see cref="LeafPatch.Near"/>.</summary>
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
        ColourResponse all = new(patch.Mask.Size());
        Rect near = patch.Near();
        using Mat mask = new(patch.Mask, near);
        using Mat bgr = new(patch.Bgr, near);
        using Mat bleached = new(bleach, near);
        using Mat lab = new(all.Lab, near);
        using Mat strength = new(all.Strength, near);
        LabPicture.Into(bgr, lab);
        SpeckStrength.Into(bgr, mask, lab, bleached, strength);
        using Mat signalToNoise = new(all.SignalToNoise, near);
        using Mat amplitude = new(all.Amplitude, near);
        using Mat best = new(all.Level, near);
        using WidthDifferences differences = new(strength, mask);
        for (int level = 0; level < Sigmas.Length; level++)
        {
            using Mat response = Sigmas[level] < HalfSizeFromSigma ? differences.At(Sigmas[level]) : differences.AtHalfSize(Sigmas[level]);
            float noise = Math.Min(QuietBlocks.Noise(response, mask), NoiseCeiling);
            using Mat ratio = new();
            response.ConvertTo(ratio, MatType.CV_32FC1, 1 / Math.Max(noise, 1e-4f));
            using Mat better = new();
            Cv2.Compare(ratio, signalToNoise, better, CmpTypes.GT);
            ratio.CopyTo(signalToNoise, better);
            response.CopyTo(amplitude, better);
            best.SetTo(Scalar.All(level), better);
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
}
