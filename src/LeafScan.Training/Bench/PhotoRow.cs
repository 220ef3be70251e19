namespace LeafScan.Training.Bench;

/// <summary>True and measured share of one kind.</summary>
/// <param name="Truth">True share, 0..1.</param>
/// <param name="Measured">Measured share, 0..1; null when the photo was refused.</param>
public sealed record SharePair(double Truth, double? Measured);

/// <summary>Specks of one size class.</summary>
/// <param name="Truth">True specks of this class.</param>
/// <param name="Matched">Of these, found.</param>
public sealed record SpeckClass(int Truth, int Matched);

/// <summary>All that the bench notes of one photo; every figure is made from rows of these.</summary>
public sealed record PhotoRow
{
    /// <summary>Set and file name.</summary>
    public required string Key { get; init; }

    /// <summary>Folder it was found through.</summary>
    public required string Set { get; init; }

    /// <summary>What is known of it.</summary>
    public required TruthKind Kind { get; init; }

    /// <summary>easy, medium, hard, demo, implant; null when not told.</summary>
    public string? Difficulty { get; init; }

    /// <summary>sheet, soil ...; null when not told.</summary>
    public string? Background { get; init; }

    /// <summary>Why the photo was not measured; null when it was.</summary>
    public string? Refused { get; init; }

    /// <summary>Overlap of the leaf that is there, over union, 0..1; 0 when refused; null when no outline is known.</summary>
    public double? OutlineIou { get; init; }

    /// <summary>True number of leaves; null when not told.</summary>
    public int? LeavesTrue { get; init; }

    /// <summary>Leaves found.</summary>
    public int LeavesFound { get; init; }

    /// <summary>Shares by name: stippled, yellowed, browned, chewed, damage.</summary>
    public required IReadOnlyDictionary<string, SharePair> Shares { get; init; }

    /// <summary>True specks; null when not told.</summary>
    public int? SpecksTrue { get; init; }

    /// <summary>Specks measured.</summary>
    public int SpecksFound { get; init; }

    /// <summary>Pairs of a true and a measured speck.</summary>
    public int SpecksMatched { get; init; }

    /// <summary>The most true specks that could be paired with measured ones; null where it was not asked.</summary>
    public int? SpecksPairable { get; init; }

    /// <summary>By class of true diameter in pixels.</summary>
    public IReadOnlyDictionary<string, SpeckClass> SpecksBySize { get; init; } = new Dictionary<string, SpeckClass>();

    /// <summary>By class of the share, 0..1, of a true speck that other true specks cover.</summary>
    public IReadOnlyDictionary<string, SpeckClass> SpecksByCover { get; init; } = new Dictionary<string, SpeckClass>();

    /// <summary>Lower end of the interval of damage; null unless one leaf was measured and is known.</summary>
    public double? DamageLow { get; init; }

    /// <summary>Upper end.</summary>
    public double? DamageHigh { get; init; }

    /// <summary>Brown tissue beside the marks of several people; null where none are known.</summary>
    public MarkOverlap? Marks { get; init; }

    /// <summary>Seconds to open and measure.</summary>
    public double Seconds { get; init; }

    /// <summary>Full truth, and the photo was measured.</summary>
    internal bool Measured => Refused is null;
}
