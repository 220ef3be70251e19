using LeafScan.Leaves.Reading;

namespace LeafScan.Web.Documents;

/// <summary>One photo with all that was measured on it. Coordinates are pixels of the upright photo, x to the right, y down.</summary>
internal sealed record PhotoDocument
{
    public required long Id { get; init; }

    public required string File { get; init; }

    public required DateOnly Date { get; init; }

    public required long WalkId { get; init; }

    public required string Place { get; init; }

    /// <summary>The photo before it in its walk; null for the first.</summary>
    public required long? PreviousId { get; init; }

    /// <summary>The photo after it in its walk; null for the last.</summary>
    public required long? NextId { get; init; }

    public required long? PlantId { get; init; }

    public required string? PlantCode { get; init; }

    /// <summary>byFolder, byFileName, byTag, byHand or unknown.</summary>
    public required string PlantBy { get; init; }

    public required int Width { get; init; }

    public required int Height { get; init; }

    /// <summary>Camera time without position; null when unknown.</summary>
    public required string? Taken { get; init; }

    public required string Kind { get; init; }

    public required double? PixelsPerMm { get; init; }

    public required string Word { get; init; }

    public required bool InBin { get; init; }

    /// <summary>Whether the photo's file is there, so that pictures can be drawn.</summary>
    public required bool HasOverlay { get; init; }

    /// <summary>Label of a leaf that is photographed again on each walk.</summary>
    public required string? LeafLabel { get; init; }

    /// <summary>old, new or null.</summary>
    public required string? LeafAge { get; init; }

    public required IReadOnlyList<FlagDocument> Flags { get; init; }

    /// <summary>Leaves, largest first.</summary>
    public required IReadOnlyList<LeafDocument> Leaves { get; init; }

    /// <summary>What people said of it, oldest first.</summary>
    public required IReadOnlyList<CorrectionDocument> Corrections { get; init; }

    /// <summary>Whether something was said that no reading takes into account yet.</summary>
    public required bool WillBeMeasuredAgain { get; init; }

    /// <summary>Version of the tool that made the reading.</summary>
    public required string MeasuredBy { get; init; }

    /// <summary>Whether the marks are drawn by another version, or with other settings, than the figures were measured with: they may then differ a little.</summary>
    public required bool MarksAreNewer { get; init; }
}

/// <summary>A doubt: what it means and what to do about it.</summary>
internal sealed record FlagDocument(string Name, string Meaning, string Advice);

/// <summary>One measured leaf.</summary>
internal sealed record LeafDocument
{
    /// <summary>Place among the leaves, 0 for the largest.</summary>
    public required int Index { get; init; }

    /// <summary>Corners as [x, y].</summary>
    public required IReadOnlyList<int[]> Outline { get; init; }

    public required double Damage { get; init; }

    public required double DamageLow { get; init; }

    public required double DamageHigh { get; init; }

    /// <summary>Shares of the leaf before it was chewed; they add up to 1.</summary>
    public required LeafShares Shares { get; init; }

    public required int SpeckCount { get; init; }

    public required double? SpeckDensityPerCm2 { get; init; }

    public required double? AreaMm2 { get; init; }

    /// <summary>Likely causes, most likely first.</summary>
    public required IReadOnlyList<LeafCause> Causes { get; init; }

    public required IReadOnlyList<FlagDocument> Flags { get; init; }

    /// <summary>Specks as [x, y, diameter].</summary>
    public required IReadOnlyList<double[]> Specks { get; init; }

    /// <summary>outline or notMites when a person corrected it; null when not.</summary>
    public required string? Corrected { get; init; }
}

/// <summary>Something a person said: of a leaf (notALeaf, notMites, outline) or of the photo (plant, leaf age, leaf label, bin).</summary>
internal sealed record CorrectionDocument(DateTimeOffset When, string? Who, string What, DateTimeOffset? TakenBack)
{
    /// <summary>Why, where a late tag did it; null where a person did.</summary>
    public string? Because { get; init; }
}

/// <summary>What a person says of a leaf.</summary>
/// <param name="What">notALeaf, notMites or outline.</param>
/// <param name="Outline">Corners as [x, y] in pixels of the upright photo; for outline only.</param>
/// <param name="Who">Who says it; null for not told.</param>
internal sealed record CorrectionWish(string? What, IReadOnlyList<int[]>? Outline, string? Who);

/// <summary>The plant that a photo shows; null for none.</summary>
internal sealed record PlantOfPhoto(long? PlantId);

/// <summary>What was undone, in words; null when there was nothing to undo.</summary>
internal sealed record UndoneDocument(string? Undone);
