namespace LeafScan.Photos;

/// <summary>
/// What opening a file gave: exactly one of <see cref="Photo"/> and <see cref="Refusal"/>. A bad file is an expected
/// thing and therefore a value, not an exception.
/// </summary>
public sealed class PhotoOutcome : IDisposable
{
    private PhotoOutcome(Photo? photo, PhotoRefusal? refusal)
    {
        Photo = photo;
        Refusal = refusal;
    }

    /// <summary>The decoded photo, or null when the file was refused.</summary>
    public Photo? Photo { get; }

    /// <summary>The refusal, or null when the photo was read.</summary>
    public PhotoRefusal? Refusal { get; }

    /// <summary>A photo that was read.</summary>
    public static PhotoOutcome Read(Photo photo) => new(photo, null);

    /// <summary>A file that was refused.</summary>
    public static PhotoOutcome Refused(PhotoRefusal refusal) => new(null, refusal);

    /// <inheritdoc />
    public void Dispose() => Photo?.Dispose();
}
