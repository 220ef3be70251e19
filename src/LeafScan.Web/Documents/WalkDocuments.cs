namespace LeafScan.Web.Documents;

/// <summary>A walk in the list of walks.</summary>
internal sealed record WalkLine(long Id, DateOnly Date, string Place, int Photos, int Refused, int Waiting);

/// <summary>One walk with its photos.</summary>
internal sealed record WalkDocument
{
    public required long Id { get; init; }

    public required DateOnly Date { get; init; }

    public required string Place { get; init; }

    /// <summary>Photos on record, by file name.</summary>
    public required IReadOnlyList<PhotoLine> Photos { get; init; }

    /// <summary>Files that were refused and not mended since.</summary>
    public required IReadOnlyList<RefusedDocument> Refused { get; init; }

    /// <summary>Photos that were received and are not measured yet, in the order they came.</summary>
    public required IReadOnlyList<WaitingDocument> Waiting { get; init; }

    /// <summary>What tags that were sent after their leaves gave to other plants, newest first, with what was taken back.</summary>
    public required IReadOnlyList<TagMoveDocument> MovedByTag { get; init; }

    /// <summary>Number of the last event; listening after it misses nothing of what is not in this document.</summary>
    public required long LastEvent { get; init; }
}

/// <summary>A photo that a late tag gave to another plant; POST /api/undo?change= takes back all that this tag moved.</summary>
internal sealed record TagMoveDocument(long ChangeId, long PhotoId, string File, string? Before, string? After, string Because, DateTimeOffset When, bool TakenBack);

/// <summary>A refused file: what happened and what to do next.</summary>
internal sealed record RefusedDocument(string File, string Reason, string Advice);

/// <summary>A photo that waits to be measured.</summary>
internal sealed record WaitingDocument(long UploadId, string Sha256, string File);

/// <summary>The walk to find or begin; the date is today when it is left out.</summary>
internal sealed record WalkWish(string? Place, DateOnly? Date);

/// <summary>A walk's number.</summary>
internal sealed record WalkBegun(long Id, DateOnly Date, string Place);

/// <summary>What became of a sent photo.</summary>
internal sealed record UploadDocument
{
    /// <summary>waiting, alreadyHere or refused.</summary>
    public required string State { get; init; }

    /// <summary>Number of the upload; null when the bytes were on record before.</summary>
    public required long? UploadId { get; init; }

    /// <summary>Name under which the same bytes are known; null when they are new.</summary>
    public required string? SameAs { get; init; }

    /// <summary>Photo with these bytes; null when there is none yet.</summary>
    public required long? PhotoId { get; init; }

    /// <summary>Day of the walk that has the photo; null when there is none.</summary>
    public required DateOnly? Date { get; init; }

    /// <summary>Whether that photo lies in the bin.</summary>
    public required bool InBin { get; init; }

    public required string? Reason { get; init; }

    public required string? Advice { get; init; }
}

/// <summary>What happened to a sent photo, as an event.</summary>
internal sealed record PhotoEvent
{
    public required long UploadId { get; init; }

    public required long WalkId { get; init; }

    public required string Sha256 { get; init; }

    public required string File { get; init; }

    /// <summary>waiting, measuring, measured or refused.</summary>
    public required string State { get; init; }

    public required long? PhotoId { get; init; }

    public required long? PlantId { get; init; }

    public required string? PlantCode { get; init; }

    public required int? Leaves { get; init; }

    public required double? Damage { get; init; }

    public required double? DamageLow { get; init; }

    public required double? DamageHigh { get; init; }

    public required IReadOnlyList<string> Flags { get; init; }

    public required string? Reason { get; init; }

    public required string? Advice { get; init; }

    /// <summary>One plain answer for the person at the plant; null while there is none.</summary>
    public required string? Word { get; init; }
}

/// <summary>How many sent photos stand how, as an event.</summary>
internal sealed record CountsEvent(int Waiting, int Measured, int Refused);
