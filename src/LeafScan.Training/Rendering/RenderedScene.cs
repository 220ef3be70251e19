using LeafScan.Training.Rendering.Truth;
using OpenCvSharp;

namespace LeafScan.Training.Rendering;

/// <summary>A rendered photo with its truth. Owns its mask.</summary>
/// <param name="spec">The description it was made from.</param>
/// <param name="jpeg">The photo's bytes.</param>
/// <param name="mask">8-bit mask codes, size of the photo.</param>
/// <param name="truth">Shares and specks.</param>
public sealed class RenderedScene(SceneSpec spec, byte[] jpeg, Mat mask, SceneTruth truth) : IDisposable
{
    /// <summary>The description it was made from.</summary>
    public SceneSpec Spec { get; } = spec;

    /// <summary>The photo: JPEG with EXIF, no position.</summary>
    public ReadOnlyMemory<byte> Jpeg { get; } = jpeg;

    /// <summary>8-bit <see cref="LeafScan.Leaves.Reading.MaskCode"/> values, size of the photo.</summary>
    public Mat Mask { get; } = mask;

    /// <summary>Shares and specks.</summary>
    public SceneTruth Truth { get; } = truth;

    /// <inheritdoc />
    public void Dispose() => Mask.Dispose();
}
