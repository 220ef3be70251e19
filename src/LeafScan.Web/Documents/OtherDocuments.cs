namespace LeafScan.Web.Documents;

/// <summary>A care entry to keep; the date is today when it is left out. What is rinse, soap, oil, predators, miticide, pruning or nothing.</summary>
internal sealed record CareWish(
    DateOnly? Date, string? What, string? Note, string? At, string? Active, string? ModeGroup, string? LabelNumber, string? Against, string? Conditions);

/// <summary>One plant in one month beside another.</summary>
internal sealed record CompareLine
{
    public required long PlantId { get; init; }

    public required string Code { get; init; }

    public required string Place { get; init; }

    public required string? Name { get; init; }

    public required string? Block { get; init; }

    public required FiguresDocument From { get; init; }

    public required FiguresDocument To { get; init; }

    /// <summary>better, worse, same or cannotTell, of the leaves that were photographed.</summary>
    public required string Word { get; init; }

    /// <summary>Mean damage of the later month minus that of the earlier.</summary>
    public required double? Difference { get; init; }

    public required double? Low { get; init; }

    public required double? High { get; init; }

    public required string Because { get; init; }

    /// <summary>What the answer does not prove.</summary>
    public required string Caution { get; init; }
}

/// <summary>A block with its plants; block is null for plants that stand in none.</summary>
internal sealed record BlockDocument(string? Block, string Place, IReadOnlyList<string> Rows, IReadOnlyList<string> Positions, IReadOnlyList<BlockPlant> Plants);

/// <summary>A plant on the map of its block.</summary>
internal sealed record BlockPlant(
    long Id, string Code, string? Row, string? Position, double? Damage, double? DamageLow, double? DamageHigh, int Leaves, DateOnly? LastWalk, string Verdict);

/// <summary>What people set for themselves. In PUT a field that is left out stays; an empty text clears it.</summary>
internal sealed record SettingsDocument
{
    /// <summary>Length of the printed 100 mm bar by a ruler, 90 to 110 mm; null counts as 100. 100 clears it.</summary>
    public double? PrintedBarMm { get; init; }

    /// <summary>mm or in.</summary>
    public string? Units { get; init; }

    /// <summary>year-month-day, day-month-year or month-day-year; null for the browser's own form.</summary>
    public string? DateForm { get; init; }

    /// <summary>Who usually works at the page.</summary>
    public string? Who { get; init; }
}

/// <summary>A backup that was made and checked.</summary>
internal sealed record BackupDocument(string File, long Bytes);

/// <summary>What is told of the leaves of a photo.</summary>
/// <param name="Age">old, new or null.</param>
/// <param name="Label">Label of a leaf that is photographed again on each walk; null for one picked that day.</param>
internal sealed record LeafNote(string? Age, string? Label);
