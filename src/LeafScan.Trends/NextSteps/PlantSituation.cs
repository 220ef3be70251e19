using LeafScan.Records;
using LeafScan.Trends.Sampling;
using LeafScan.Trends.Thresholds;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Trends.NextSteps;

/// <summary>The latest tap of a plant.</summary>
/// <param name="Day">Day.</param>
/// <param name="Counts">Live plant-feeding mites, one number a sheet; at least one.</param>
/// <param name="Predators">Predators on the same sheets; null when not looked for on all of them.</param>
/// <param name="HoursSinceWet">Hours since rinse or rain; null when not noted.</param>
public sealed record TapSeen(DateOnly Day, IReadOnlyList<int> Counts, int? Predators = null, double? HoursSinceWet = null)
{
    /// <summary>Branches under each count; null for one each.</summary>
    public IReadOnlyList<int>? Branches { get; init; }

    /// <summary>Mean live mites of a tapped branch on the day with taps before; null when there is none.</summary>
    public double? MeanBefore { get; init; }

    /// <summary>Mean live mites of a tapped branch, with its 90 % interval.</summary>
    public CountMean Mites => CountMean.Of(Counts, Branches, 0.9);
}

/// <summary>Care that was done.</summary>
/// <param name="Day">Day.</param>
/// <param name="What">What.</param>
/// <param name="Note">Note with product and active; null for none.</param>
public sealed record CareDone(DateOnly Day, CareKind What, string? Note = null)
{
    /// <summary>Active ingredient; null when not told.</summary>
    public string? Active { get; init; }

    /// <summary>IRAC mode-of-action group; null when not told.</summary>
    public string? ModeGroup { get; init; }
}

/// <summary>All that advice on the next step rests on. Plain data; <see cref="RecordSituation"/> makes it from a record.</summary>
public sealed record PlantSituation
{
    /// <summary>Day for which advice is wanted.</summary>
    public required DateOnly Today { get; init; }

    /// <summary>When the mites to reckon with feed.</summary>
    public MiteCalendar Mite { get; init; }

    /// <summary>Botanical name; null when not known.</summary>
    public string? Species { get; init; }

    /// <summary>Cultivar; null when not known.</summary>
    public string? Cultivar { get; init; }

    /// <summary>Whether it is left untreated on purpose, to compare others with.</summary>
    public bool IsCheck { get; init; }

    /// <summary>Mean temperature of the last days, °C; null when not known.</summary>
    public double? MeanC { get; init; }

    /// <summary>Highest temperature of the last days, °C; null when not known.</summary>
    public double? HighestC { get; init; }

    /// <summary>What was measured on it: leaf, twig or plant.</summary>
    public string Kind { get; init; } = "leaf";

    /// <summary>Day of the last measured leaves; null when there are none.</summary>
    public DateOnly? LastLeavesOn { get; init; }

    /// <summary>Mean damage of these leaves, 0..1; null when there are none.</summary>
    public double? Damage { get; init; }

    /// <summary>Whether damage surely rose over the last weeks; false when it surely did not, null when that cannot be told.</summary>
    public bool? IsDamageRising { get; init; }

    /// <summary>Whether new growth is free of new damage; null when not looked at.</summary>
    public bool? IsNewGrowthClean { get; init; }

    /// <summary>Latest tap; null when there is none.</summary>
    public TapSeen? Tap { get; init; }

    /// <summary>Care entries, in any order.</summary>
    public IReadOnlyList<CareDone> Care { get; init; } = [];

    /// <summary>Live mites a tap from which something is done; null where none is published or set.</summary>
    public Threshold? MitesPerTap { get; init; }

    /// <summary>Predators for each mite from which mites are left to them; null for none.</summary>
    public Threshold? PredatorsPerMite { get; init; }

    /// <summary>Damage from which people call the plant damaged; null where none is published or set.</summary>
    public Threshold? DamageInSight { get; init; }
}
