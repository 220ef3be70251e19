using LeafScan.Records;

namespace LeafScan.Trends.Verdicts;

/// <summary>All that is known of one plant when its care is judged. Plain data; whoever keeps a record maps to it.</summary>
public sealed record PlantHistory
{
    /// <summary>How the plant is called in sentences, such as its code.</summary>
    public required string Name { get; init; }

    /// <summary>What its visits' readings are of: leaf, twig or plant. Sentences are said of it.</summary>
    public string Kind { get; init; } = "leaf";

    /// <summary>Visits with measured leaves, in any order; two on one day count as one.</summary>
    public IReadOnlyList<HistoryVisit> Visits { get; init; } = [];

    /// <summary>Taps, in any order; several on one day are several strokes of one visit.</summary>
    public IReadOnlyList<HistoryTap> Taps { get; init; } = [];

    /// <summary>What was done. <see cref="CareKind.Nothing"/> is no care.</summary>
    public IReadOnlyList<HistoryCare> Care { get; init; } = [];

    /// <summary>Plants of the same kind nearby that were left untreated. Their own check plants are not looked at.</summary>
    public IReadOnlyList<PlantHistory> CheckPlants { get; init; } = [];

    /// <summary>Weather by day; empty when not known.</summary>
    public IReadOnlyList<HistoryWeather> Weather { get; init; } = [];

    /// <summary>When the plant's mites feed.</summary>
    public MiteCalendar Calendar { get; init; }
}

/// <summary>One visit.</summary>
/// <param name="Day">Day.</param>
/// <param name="Leaves">The leaves that were photographed and could be judged.</param>
public sealed record HistoryVisit(DateOnly Day, IReadOnlyList<HistoryLeaf> Leaves);

/// <summary>How old a leaf is.</summary>
public enum LeafAge
{
    /// <summary>Not noted.</summary>
    Unknown,

    /// <summary>There before this season's late growth.</summary>
    Old,

    /// <summary>Unfolded since the last visits.</summary>
    NewGrowth,
}

/// <summary>One leaf of a visit.</summary>
/// <param name="Damage">Damage, 0..1.</param>
/// <param name="DamageLow">Lower end of its 90 % interval.</param>
/// <param name="DamageHigh">Upper end of its 90 % interval.</param>
/// <param name="Stippled">Stippled share of the leaf, 0..1.</param>
/// <param name="Age">Its age.</param>
/// <param name="Tag">Label of a leaf that is photographed again at each visit; null for a leaf picked that day.</param>
public sealed record HistoryLeaf(double Damage, double DamageLow, double DamageHigh, double Stippled, LeafAge Age = LeafAge.Unknown, string? Tag = null);

/// <summary>One tap.</summary>
/// <param name="Day">Day.</param>
/// <param name="LiveMites">Live plant-feeding mites on the sheet.</param>
/// <param name="Strikes">Strikes on each branch; null when not noted. Taps of different strikes are brought to counts a strike.</param>
/// <param name="Predators">Predators on the sheet; null when not looked for.</param>
/// <param name="HoursSinceRinse">Hours since the plant was last wet; null when not noted.</param>
public sealed record HistoryTap(DateOnly Day, int LiveMites, int? Strikes = null, int? Predators = null, double? HoursSinceRinse = null)
{
    /// <summary>Branches that were struck over the sheet, 1 or more. Default: one.</summary>
    public int Branches { get; init; } = 1;
}

/// <summary>One care entry.</summary>
/// <param name="Day">Day.</param>
/// <param name="What">What was done.</param>
public sealed record HistoryCare(DateOnly Day, CareKind What);

/// <summary>Weather of a day.</summary>
/// <param name="Day">Day.</param>
/// <param name="LowCelsius">Lowest temperature in °C.</param>
/// <param name="HighCelsius">Highest temperature in °C.</param>
public sealed record HistoryWeather(DateOnly Day, double LowCelsius, double HighCelsius);
