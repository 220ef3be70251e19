using LeafScan.Leaves.Reading;

namespace LeafScan.Records;

/// <summary>A plant in the list of plants, with its last walk.</summary>
public sealed record PlantOverview
{
    /// <summary>The plant.</summary>
    public required Plant Plant { get; init; }

    /// <summary>What its figures are of: leaf where it has any, else twig, else plant; null when nothing was measured.</summary>
    public string? Kind { get; init; }

    /// <summary>Walks on which it has measured leaves.</summary>
    public required int WalkCount { get; init; }

    /// <summary>Photos of it on record.</summary>
    public required int PhotoCount { get; init; }

    /// <summary>Day of the last walk with a measured leaf; null when there is none.</summary>
    public required DateOnly? LastWalkedOn { get; init; }

    /// <summary>Leaves measured on that walk.</summary>
    public required int LastLeafCount { get; init; }

    /// <summary>Plain mean of the damage of those leaves, 0..1; null when there are none.</summary>
    public required double? LastDamage { get; init; }
}

/// <summary>One leaf of the current reading of a photo, with the walk on which it was taken. The numbers without the shapes.</summary>
public sealed record LeafOnRecord
{
    /// <summary>Number of the leaf in the store.</summary>
    public required long LeafId { get; init; }

    /// <summary>What was measured: leaf, twig or plant. Numbers of different kinds are never put together.</summary>
    public string Kind { get; init; } = "leaf";

    /// <summary>Plant.</summary>
    public required long PlantId { get; init; }

    /// <summary>Walk.</summary>
    public required long WalkId { get; init; }

    /// <summary>Day of the walk.</summary>
    public required DateOnly WalkedOn { get; init; }

    /// <summary>Photo.</summary>
    public required long PhotoId { get; init; }

    /// <summary>File name of the photo.</summary>
    public required string FileName { get; init; }

    /// <summary>Place among the leaves of the photo, 0 for the largest.</summary>
    public required int Ordinal { get; init; }

    /// <summary>Area of the leaf before it was chewed, in square pixels.</summary>
    public required double AreaPx { get; init; }

    /// <summary>The same in mm²; null without a scale.</summary>
    public required double? AreaMm2 { get; init; }

    /// <summary>Shares of the leaf before it was chewed.</summary>
    public required LeafShares Shares { get; init; }

    /// <summary>Damage, 0..1.</summary>
    public required double Damage { get; init; }

    /// <summary>Lower end of the 90 % interval of the damage.</summary>
    public required double DamageLow { get; init; }

    /// <summary>Upper end of the 90 % interval of the damage.</summary>
    public required double DamageHigh { get; init; }

    /// <summary>Number of specks.</summary>
    public required int SpeckCount { get; init; }

    /// <summary>Specks per cm² of judged leaf; null without a scale.</summary>
    public required double? SpeckDensityPerCm2 { get; init; }

    /// <summary>Median diameter of the specks in pixels; 0 when there are none.</summary>
    public required double SpeckDiameterMedianPx { get; init; }

    /// <summary>Doubts about the leaf and about the whole photo, each once.</summary>
    public required IReadOnlyList<string> Flags { get; init; }

    /// <summary>What only a twig or a whole plant has; null for a leaf and for readings from before it was kept.</summary>
    public FoliageOnRecord? Foliage { get; init; }

    /// <summary>How old it is; null when not noted.</summary>
    public LeafGrowth? Age { get; init; }

    /// <summary>Label of a leaf that is photographed again on each walk; null for a leaf picked that day.</summary>
    public string? Tag { get; init; }
}

/// <summary>All measured leaves of one plant in one month, as plain means; intervals are made by the trends.</summary>
/// <param name="PlantId">Plant.</param>
/// <param name="Month">Month of the walks, "2026-07".</param>
/// <param name="WalkCount">Walks in that month with a measured leaf.</param>
/// <param name="LeafCount">Leaves measured.</param>
/// <param name="Damage">Mean damage, 0..1.</param>
/// <param name="Shares">Mean shares.</param>
public sealed record MonthFigures(long PlantId, string Month, int WalkCount, int LeafCount, double Damage, LeafShares Shares);

/// <summary>One reading of a photo: the current one or an older one that was kept.</summary>
/// <param name="Id">Number in the store.</param>
/// <param name="IsCurrent">Whether this is the one that counts.</param>
/// <param name="MeasuredAt">When it was measured.</param>
/// <param name="Origin">What made it.</param>
/// <param name="LeafCount">Leaves measured.</param>
public sealed record ReadingOnRecord(long Id, bool IsCurrent, DateTimeOffset MeasuredAt, ReadingOrigin Origin, int LeafCount);

/// <summary>A file that was refused, as it is on record.</summary>
/// <param name="FileName">File name.</param>
/// <param name="PathSeen">Full path.</param>
/// <param name="Reason">What happened.</param>
/// <param name="Advice">What to do next.</param>
/// <param name="WalkedOn">Day of the walk.</param>
/// <param name="PlaceName">Place of the walk.</param>
public sealed record RefusedOnRecord(string FileName, string PathSeen, string Reason, string Advice, DateOnly WalkedOn, string PlaceName);

/// <summary>The shapes of one leaf, in pixels of the upright photo.</summary>
/// <param name="Outline">Closed outline as it was before it was chewed.</param>
/// <param name="SpeckCentres">Specks, to a tenth of a pixel.</param>
/// <param name="Causes">Likely causes with their reasons.</param>
public sealed record LeafShape(IReadOnlyList<PointPx> Outline, IReadOnlyList<SpeckMark> SpeckCentres, IReadOnlyList<LeafCause> Causes);

/// <summary>A change made by hand, with the value before it.</summary>
/// <param name="Field">What was changed.</param>
/// <param name="OldValue">Value before; null for none.</param>
/// <param name="NewValue">Value after; null for none.</param>
/// <param name="Reason">Why.</param>
/// <param name="EditedAt">When.</param>
/// <param name="UndoneAt">When it was undone; null while it stands.</param>
public sealed record EditOnRecord(string Field, string? OldValue, string? NewValue, string Reason, DateTimeOffset EditedAt, DateTimeOffset? UndoneAt = null);
