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

    private const float NoiseFloor = 1e-4f;

    // From this width on half the size shows all there is to see, in an eighth of the time.
    private const double HalfSizeFromSigma = 3;

    private readonly float[] _noise = new float[Sigmas.Length];

    private ColourResponse(Size size)
    {
        Lab = new Mat(size, MatType.CV_32FC3);
        Strength = new Mat(size, MatType.CV_32FC1, Scalar.All(0));
        SignalToNoise = new Mat(size, MatType.CV_32FC1, Scalar.All(0));
        Level = new Mat(size, MatType.CV_8UC1, Scalar.All(0));
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
    /// <param name="signalToNoise">A pixel's <see cref="SignalToNoise"/>.</param>
    /// <param name="level">Its <see cref="Level"/>.</param>
    public float Amplitude(float signalToNoise, int level) => signalToNoise * _noise[level];

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
        using Mat best = new(all.Level, near);
        List<Rect> quiet = QuietBlocks.Inside(mask);
        using WidthDifferences differences = new(strength, mask);
        for (int level = 0; level < Sigmas.Length; level++)
        {
            using Mat response = Sigmas[level] < HalfSizeFromSigma ? differences.At(Sigmas[level]) : differences.AtHalfSize(Sigmas[level]);
            float noise = Math.Max(Math.Min(QuietBlocks.Noise(response, mask, quiet), NoiseCeiling), NoiseFloor);
            all._noise[level] = noise;
            BestWidth.Take(response, 1 / noise, (byte)level, signalToNoise, best);
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
    }
}
