using OpenCvSharp;

namespace LeafScan.Photos;

/// <summary>
/// One photo, decoded, converted to sRGB and turned upright exactly once: what every measurement starts from.
/// The photo owns its pixels; dispose it when its reading is done.
/// </summary>
public sealed class Photo : IDisposable
{
    private readonly Task<IReadOnlyList<string>> _flags;

    /// <summary>Takes ownership of <paramref name="pixels"/>.</summary>
    /// <param name="facts">What is known of the file.</param>
    /// <param name="pixels">8-bit, 3 channels in B, G, R order, sRGB, upright, full size.</param>
    /// <param name="flags">Names from <see cref="Flag"/>, in order of finding.</param>
    public Photo(PhotoFacts facts, Mat pixels, IReadOnlyList<string> flags)
        : this(facts, pixels, Task.FromResult(flags))
    {
    }

    /// <summary>The same with flags that are still being found while the photo is in use already.</summary>
    internal Photo(PhotoFacts facts, Mat pixels, Task<IReadOnlyList<string>> flags)
    {
        Facts = facts;
        Pixels = pixels;
        _flags = flags;
    }

    /// <summary>What is known of the file: name, fingerprint, size, time.</summary>
    public PhotoFacts Facts { get; }

    /// <summary>Upright full-size pixels: 8-bit, 3 channels in B, G, R order, sRGB; x to the right, y down.</summary>
    public Mat Pixels { get; }

    /// <summary>Named doubts about the whole photo (see <see cref="Flag"/>); empty when there are none. Waits until all are found.</summary>
    public IReadOnlyList<string> Flags => _flags.GetAwaiter().GetResult();

    /// <inheritdoc />
    public void Dispose()
    {
        // Whoever looks for flags looks at the pixels. What goes wrong there is told to whoever asks for the flags.
        Task.WaitAny(_flags);
        Pixels.Dispose();
    }
}
