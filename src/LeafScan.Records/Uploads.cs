namespace LeafScan.Records;

/// <summary>How far a received photo is.</summary>
public enum UploadState
{
    /// <summary>Received, not measured yet.</summary>
    Waiting,

    /// <summary>Being measured; only among events.</summary>
    Measuring,

    /// <summary>On record with its reading.</summary>
    Measured,

    /// <summary>Refused, with a reason.</summary>
    Refused,
}

/// <summary>A photo that was received whole and lies on the disk, on its way into the record.</summary>
public sealed record NewUpload
{
    /// <summary>Walk it belongs to.</summary>
    public required long WalkId { get; init; }

    /// <summary>SHA-256 of the bytes, lower-case hex.</summary>
    public required string Sha256 { get; init; }

    /// <summary>Name on the device it came from: a label, never a path.</summary>
    public required string FileName { get; init; }

    /// <summary>Folder on that device, parts joined by "/": a label, never a path; empty for none.</summary>
    public required string Folder { get; init; }

    /// <summary>Plant that a person chose; null to tell it from folder and name.</summary>
    public long? PlantId { get; init; }

    /// <summary>File that holds the bytes, relative to the data folder.</summary>
    public required string StoredAs { get; init; }
}

/// <summary>A received photo as it is on record.</summary>
/// <param name="Id">Number.</param>
/// <param name="Upload">What was received.</param>
/// <param name="State">How far it is; never <see cref="UploadState.Measuring"/>.</param>
/// <param name="PhotoId">Photo on record once it is measured.</param>
/// <param name="Word">Why it was refused, in a word or two; null when it was not.</param>
/// <param name="Reason">Why, one sentence.</param>
/// <param name="Advice">What to do, one sentence.</param>
public sealed record UploadOnRecord(long Id, NewUpload Upload, UploadState State, long? PhotoId, string? Word, string? Reason, string? Advice);

/// <summary>Something that happened to a received photo.</summary>
/// <param name="Id">Number; later ones are larger.</param>
/// <param name="State">What it became.</param>
/// <param name="Upload">The photo as it stands now.</param>
public sealed record UploadEvent(long Id, UploadState State, UploadOnRecord Upload);

/// <summary>How many received photos stand how.</summary>
/// <param name="Waiting">Waiting or being measured.</param>
/// <param name="Measured">On record.</param>
/// <param name="Refused">Refused.</param>
public sealed record UploadCounts(int Waiting, int Measured, int Refused);

/// <summary>One walk in the list of walks.</summary>
/// <param name="Walk">The walk.</param>
/// <param name="PlaceName">Its place.</param>
/// <param name="Photos">Photos on record, without those in the bin.</param>
/// <param name="Refused">Files that were refused and not mended since.</param>
/// <param name="Waiting">Photos received and not measured yet.</param>
public sealed record WalkSums(Walk Walk, string PlaceName, int Photos, int Refused, int Waiting);
