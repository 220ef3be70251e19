using OpenCvSharp;

namespace LeafScan.Training.Rendering.Plants;

/// <summary>A rendered photo of a whole plant with its truth. Owns its masks.</summary>
/// <param name="spec">The description it was made from.</param>
/// <param name="jpeg">The photo's bytes.</param>
/// <param name="mask">8-bit mask codes, size of the photo.</param>
/// <param name="full">255 where foliage was before anything fell, size of the photo.</param>
/// <param name="truth">Shares, thinning, sectors.</param>
public sealed class RenderedPlant(PlantSpec spec, byte[] jpeg, Mat mask, Mat full, PlantTruth truth) : IDisposable
{
    /// <summary>The description it was made from.</summary>
    public PlantSpec Spec { get; } = spec;

    /// <summary>The photo: JPEG with EXIF, no position.</summary>
    public ReadOnlyMemory<byte> Jpeg { get; } = jpeg;

    /// <summary>8-bit <see cref="LeafScan.Leaves.Reading.MaskCode"/> values, size of the photo; wood and gaps are background.</summary>
    public Mat Mask { get; } = mask;

    /// <summary>255 where foliage was before anything fell: what thinning is measured against.</summary>
    public Mat Full { get; } = full;

    /// <summary>Shares, thinning, sectors.</summary>
    public PlantTruth Truth { get; } = truth;

    /// <inheritdoc />
    public void Dispose()
    {
        Mask.Dispose();
        Full.Dispose();
    }
}
