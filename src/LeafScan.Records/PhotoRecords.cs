using LeafScan.Leaves.Reading;
using LeafScan.Photos;

namespace LeafScan.Records;

/// <summary>What made the reading: enough to explain an old number or to measure it again.</summary>
/// <param name="ToolVersion">Version of the tool.</param>
/// <param name="OptionsHash">Hash of the measuring options.</param>
/// <param name="ModelVersion">Version of the trained model; null when none was used.</param>
public sealed record ReadingOrigin(string ToolVersion, string OptionsHash, string? ModelVersion = null);

/// <summary>A measured photo on its way into the record.</summary>
public sealed record NewPhoto
{
    /// <summary>The walk on which it was taken.</summary>
    public required long WalkId { get; init; }

    /// <summary>Facts of the file; its SHA-256 is the photo's identity.</summary>
    public required PhotoFacts Facts { get; init; }

    /// <summary>What was measured on it.</summary>
    public required PhotoReading Reading { get; init; }

    /// <summary>What made the reading.</summary>
    public required ReadingOrigin Origin { get; init; }

    /// <summary>Which plant it shows; the plant is begun when its place has none of this code.</summary>
    public required PlantGuess Plant { get; init; }

    /// <summary>How old its leaves are; null when not told.</summary>
    public LeafGrowth? LeafAge { get; init; }

    /// <summary>Label of the leaf that is photographed again on each walk; null for a leaf picked that day.</summary>
    public string? LeafTag { get; init; }

    /// <summary>Run that brought it; null when there is none.</summary>
    public long? RunId { get; init; }
}

/// <summary>A photo that is on record, and where.</summary>
public sealed record PhotoOnRecord
{
    /// <summary>Number in the store.</summary>
    public required long Id { get; init; }

    /// <summary>SHA-256 of the file, lower-case hex.</summary>
    public required string Sha256 { get; init; }

    /// <summary>File name under which it was first seen.</summary>
    public required string FileName { get; init; }

    /// <summary>Full path at which it was first seen.</summary>
    public required string PathSeen { get; init; }

    /// <summary>What it shows, as it was recorded: "leaf" where leaves were measured, "tag" for a photo of a plant tag.</summary>
    public required string Kind { get; init; }

    /// <summary>Capture time by the camera's clock, ISO 8601; null when unknown.</summary>
    public string? Taken { get; init; }

    /// <summary>Walk that keeps it.</summary>
    public required long WalkId { get; init; }

    /// <summary>Day of that walk.</summary>
    public required DateOnly WalkedOn { get; init; }

    /// <summary>Place of that walk.</summary>
    public required string PlaceName { get; init; }

    /// <summary>Plant, or null when unknown.</summary>
    public required long? PlantId { get; init; }

    /// <summary>Code of the plant, or null when unknown.</summary>
    public required string? PlantCode { get; init; }

    /// <summary>How its plant was found: byFolder, byFileName, byTag, byHand or unknown.</summary>
    public required string PlantBy { get; init; }

    /// <summary>How old its leaves are; null when not told.</summary>
    public LeafGrowth? LeafAge { get; init; }

    /// <summary>Label of its leaf; null when it has none.</summary>
    public string? LeafTag { get; init; }

    /// <summary>Whether it lies in the bin and counts nowhere.</summary>
    public bool IsInBin { get; init; }

    /// <summary>What made its current reading.</summary>
    public required ReadingOrigin Origin { get; init; }
}

/// <summary>What recording a photo did.</summary>
/// <param name="Added">False when the same bytes were on record already: the first stays as it is.</param>
/// <param name="Photo">The photo as it is on record, new or old.</param>
public sealed record PhotoRecorded(bool Added, PhotoOnRecord Photo);

/// <summary>A file that was refused, on its way into the record.</summary>
public sealed record NewRefusal
{
    /// <summary>The walk to which it was meant.</summary>
    public required long WalkId { get; init; }

    /// <summary>Full path of the file.</summary>
    public required string PathSeen { get; init; }

    /// <summary>SHA-256 when it could be read; null when not.</summary>
    public string? Sha256 { get; init; }

    /// <summary>File name, reason and advice.</summary>
    public required PhotoRefusal Refusal { get; init; }

    /// <summary>Run in which it was refused; null when there is none.</summary>
    public long? RunId { get; init; }
}
