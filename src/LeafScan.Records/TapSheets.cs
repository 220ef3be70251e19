namespace LeafScan.Records;

/// <summary>One reading of two photos of a tap sheet, as it was made; it never changes.</summary>
/// <param name="Id">Number in the store.</param>
/// <param name="FirstSha256">Fingerprint of the first photo, lower-case hex.</param>
/// <param name="SecondSha256">Fingerprint of the second.</param>
/// <param name="ToolVersion">Version of the tool that read them.</param>
/// <param name="Reading">The reading as JSON; what is in it is the reader's own affair.</param>
/// <param name="ReadAt">When.</param>
public sealed record TapSheetOnRecord(long Id, string FirstSha256, string SecondSha256, string ToolVersion, string Reading, DateTimeOffset ReadAt);

/// <summary>What a person said of one speck of a tap sheet.</summary>
public enum TapWord
{
    /// <summary>It is a plant-feeding mite.</summary>
    Mite,

    /// <summary>It is none: dust, debris or something else that moved.</summary>
    NotMite,

    /// <summary>It is a predator.</summary>
    Predator,
}

/// <summary>Something a person said of a tap sheet.</summary>
/// <param name="Id">Number in the store.</param>
/// <param name="X">Place in the first photo, pixels to the right.</param>
/// <param name="Y">Pixels down.</param>
/// <param name="Word">What it is.</param>
/// <param name="Who">Who says it; null for not told.</param>
/// <param name="MadeAt">When.</param>
/// <param name="TakenBackAt">When it was taken back; null while it stands.</param>
public sealed record TapCorrection(long Id, double X, double Y, TapWord Word, string? Who, DateTimeOffset MadeAt, DateTimeOffset? TakenBackAt);
