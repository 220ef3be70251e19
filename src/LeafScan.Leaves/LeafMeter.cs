using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves;

/// <summary>The door of this project: a photo in, its reading and its mask out.</summary>
public static class LeafMeter
{
    /// <summary>
    /// Measures every leaf of a photo. A photo in which no leaf is found gives a refusal with reason and advice.
    /// </summary>
    /// <param name="photo">Upright sRGB photo; not changed and not disposed.</param>
    /// <param name="options">How to measure; its hash is stored with each reading.</param>
    /// <param name="cancel">Stops between steps.</param>
    public static LeafMeasurement Measure(Photo photo, MeasureOptions options, CancellationToken cancel = default)
        => throw new NotSupportedException();
}

/// <summary>What measuring one photo gave: a reading with its mask, or a refusal. Owns its mask.</summary>
public sealed class LeafMeasurement : IDisposable
{
    /// <summary>The reading, or null when the photo was refused.</summary>
    public PhotoReading? Reading { get; init; }

    /// <summary>Why nothing could be measured, or null.</summary>
    public PhotoRefusal? Refusal { get; init; }

    /// <summary>8-bit one-channel picture of <see cref="MaskCode"/> values, size of the photo; null when refused.</summary>
    public Mat? Mask { get; init; }

    /// <inheritdoc />
    public void Dispose() => Mask?.Dispose();
}
