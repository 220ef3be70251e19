namespace LeafScan.Photos;

/// <summary>What is known of a photo file besides its pixels.</summary>
public sealed record PhotoFacts
{
    /// <summary>File name without folders, as on disk.</summary>
    public required string FileName { get; init; }

    /// <summary>Full path of the file that was read.</summary>
    public required string Path { get; init; }

    /// <summary>SHA-256 of the file's bytes, 64 lower-case hex digits: the photo's identity.</summary>
    public required string Sha256 { get; init; }

    /// <summary>File size in bytes.</summary>
    public required long ByteLength { get; init; }

    /// <summary>Kind of file by its first bytes, never by its extension.</summary>
    public required PhotoFormat Format { get; init; }

    /// <summary>Width of the upright photo in pixels.</summary>
    public required int WidthPx { get; init; }

    /// <summary>Height of the upright photo in pixels.</summary>
    public required int HeightPx { get; init; }

    /// <summary>When the shutter opened, by the camera's own clock; null when the file does not say.</summary>
    public CaptureTime? Taken { get; init; }
}

/// <summary>The kinds of photo file that are read.</summary>
public enum PhotoFormat
{
    /// <summary>JPEG (ISO/IEC 10918).</summary>
    Jpeg,

    /// <summary>PNG (ISO/IEC 15948).</summary>
    Png,

    /// <summary>HEIC: HEVC pictures in the HEIF container (ISO/IEC 23008-12).</summary>
    Heic,
}
