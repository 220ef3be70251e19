using LeafScan.Photos;
using LeafScan.Records;
using LeafScan.Walks.Measuring;

namespace LeafScan.Walks;

/// <summary>A photo that came on record.</summary>
/// <param name="File">Its label.</param>
/// <param name="Plant">Code of its plant; null when unknown.</param>
/// <param name="Day">Day of its walk.</param>
/// <param name="Reading">Its leaves summed up.</param>
public sealed record AddedPhoto(string File, string? Plant, DateOnly Day, PhotoSummary Reading)
{
    /// <summary>How its plant was found, and why.</summary>
    public required PlantGuess PlantGuess { get; init; }

    /// <summary>Whether tag, folder and file name disagree about the plant, or several tags do.</summary>
    public bool PlantUnsure { get; init; }

    /// <summary>Whether it was recorded as a photo of a tag: without leaves.</summary>
    public bool IsTagPhoto { get; init; }

    /// <summary>Whether it shows a tag that could not be read.</summary>
    public bool TagUnread { get; init; }
}

/// <summary>A file whose bytes are on record already.</summary>
/// <param name="File">Its label.</param>
/// <param name="SameAs">Name under which the bytes are known.</param>
/// <param name="Plant">Code of the plant there; null when unknown.</param>
/// <param name="Day">Day of the walk there.</param>
public sealed record KnownPhoto(string File, string SameAs, string? Plant, DateOnly? Day);

/// <summary>What adding a walk did so far.</summary>
public sealed class WalkOutcome
{
    /// <summary>Photos that came on record.</summary>
    public List<AddedPhoto> Added { get; } = [];

    /// <summary>Files that were on record already, or twice in the folder.</summary>
    public List<KnownPhoto> AlreadyHere { get; } = [];

    /// <summary>Files that were refused.</summary>
    public List<PhotoRefusal> Refused { get; } = [];

    /// <summary>True when it was stopped before the end.</summary>
    public bool Stopped { get; set; }

    /// <summary>Number of new files that were to be measured.</summary>
    public int Planned { get; set; }

    /// <summary>"14 new, 6 already here, 1 refused".</summary>
    public string Counts => FormattableString.Invariant($"{Added.Count} new, {AlreadyHere.Count} already here, {Refused.Count} refused");
}
