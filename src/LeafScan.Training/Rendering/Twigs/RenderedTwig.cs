using OpenCvSharp;

namespace LeafScan.Training.Rendering.Twigs;

/// <summary>A rendered photo of a twig with its truth. Owns its mask.</summary>
/// <param name="spec">The description it was made from.</param>
/// <param name="jpeg">The photo's bytes.</param>
/// <param name="mask">8-bit mask codes, size of the photo.</param>
/// <param name="truth">Shares, specks, fallen leaves, new growth.</param>
public sealed class RenderedTwig(TwigSpec spec, byte[] jpeg, Mat mask, TwigTruth truth) : IDisposable
{
    /// <summary>The description it was made from.</summary>
    public TwigSpec Spec { get; } = spec;

    /// <summary>The photo: JPEG with EXIF, no position.</summary>
    public ReadOnlyMemory<byte> Jpeg { get; } = jpeg;

    /// <summary>8-bit <see cref="LeafScan.Leaves.Reading.MaskCode"/> values, size of the photo.</summary>
    public Mat Mask { get; } = mask;

    /// <summary>Shares, specks, fallen leaves, new growth.</summary>
    public TwigTruth Truth { get; } = truth;

    /// <inheritdoc />
    public void Dispose() => Mask.Dispose();
}
