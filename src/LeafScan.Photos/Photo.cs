using OpenCvSharp;

namespace LeafScan.Photos;

/// <summary>
/// One photo, decoded, converted to sRGB and turned upright exactly once: what every measurement starts from.
/// The photo owns its pixels; dispose it when its reading is done.
/// </summary>
public sealed class Photo : IDisposable
{
    /// <summary>Takes ownership of <paramref name="pixels"/>.</summary>
    /// <param name="facts">What is known of the file.</param>
    /// <param name="pixels">8-bit, 3 channels in B, G, R order, sRGB, upright, full size.</param>
    /// <param name="flags">Names from <see cref="Flag"/>, in order of finding.</param>
    public Photo(PhotoFacts facts, Mat pixels, IReadOnlyList<string> flags)
    {
        Facts = facts;
        Pixels = pixels;
        Flags = flags;
    }

    /// <summary>What is known of the file: name, fingerprint, size, time.</summary>
    public PhotoFacts Facts { get; }

    /// <summary>Upright full-size pixels: 8-bit, 3 channels in B, G, R order, sRGB; x to the right, y down.</summary>
    public Mat Pixels { get; }

    /// <summary>Named doubts about the whole photo (see <see cref="Flag"/>); empty when there are none.</summary>
    public IReadOnlyList<string> Flags { get; }

    /// <inheritdoc />
    public void Dispose() => Pixels.Dispose();
}
