using LeafScan.Photos;

namespace LeafScan.Leaves.Reading;

/// <summary>What was measured on one photo.</summary>
public sealed record PhotoReading
{
    /// <summary>File name without folders.</summary>
    public required string File { get; init; }

    /// <summary>SHA-256 of the file, lower-case hex.</summary>
    public required string Sha256 { get; init; }

    /// <summary>Width of the upright photo in pixels.</summary>
    public required int Width { get; init; }

    /// <summary>Height of the upright photo in pixels.</summary>
    public required int Height { get; init; }

    /// <summary>Capture time, ISO 8601, with offset when the file has one; null when unknown.</summary>
    public string? Taken { get; init; }

    /// <summary>leaf, twig or plant; in a record also tag: a photo of a plant tag, without leaves.</summary>
    public required string Kind { get; init; }

    /// <summary>Plant code when one is known.</summary>
    public string? Plant { get; init; }

    /// <summary>Scale; null when nothing in the frame gives one.</summary>
    public double? PixelsPerMm { get; init; }

    /// <summary>Named doubts about the whole photo (see <see cref="Flag"/>).</summary>
    public required IReadOnlyList<string> Flags { get; init; }

    /// <summary>The leaves, largest first.</summary>
    public required IReadOnlyList<LeafReading> Leaves { get; init; }
}
