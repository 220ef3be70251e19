using LeafScan.Records;
using LeafScan.Trends.Weather;

namespace LeafScan.Trends.NextSteps;

/// <summary>The latest tap of a plant.</summary>
/// <param name="Day">Day.</param>
/// <param name="Counts">Live plant-feeding mites, one number a tapped branch; at least one.</param>
/// <param name="Predators">Predators on the same sheets; null when not looked for.</param>
/// <param name="HoursSinceWet">Hours since rinse or rain; null when not noted.</param>
public sealed record TapSeen(DateOnly Day, IReadOnlyList<int> Counts, int? Predators = null, double? HoursSinceWet = null);

/// <summary>Care that was done.</summary>
/// <param name="Day">Day.</param>
/// <param name="What">What.</param>
/// <param name="Note">Note with product and active; null for none.</param>
public sealed record CareDone(DateOnly Day, CareKind What, string? Note = null);

/// <summary>All that advice on the next step rests on. Plain data; whoever keeps a record maps to it.</summary>
public sealed record PlantSituation
{
    /// <summary>Day for which advice is wanted.</summary>
    public required DateOnly Today { get; init; }

    /// <summary>Mite to reckon with.</summary>
    public MiteKind Mite { get; init; }

    /// <summary>Botanical name; null when not known.</summary>
    public string? Species { get; init; }

    /// <summary>Mean temperature of the last days, °C; null when not known.</summary>
    public double? MeanC { get; init; }

    /// <summary>Highest temperature of the last days, °C; null when not known.</summary>
    public double? HighestC { get; init; }

    /// <summary>Day of the last measured leaves; null when there are none.</summary>
    public DateOnly? LastLeavesOn { get; init; }

    /// <summary>Mean damage of these leaves, 0..1; null when there are none.</summary>
    public double? Damage { get; init; }

    /// <summary>Whether damage surely rose since the walk before; null when that cannot be told.</summary>
    public bool? IsDamageRising { get; init; }

    /// <summary>Whether new growth is free of new damage; null when not looked at.</summary>
    public bool? IsNewGrowthClean { get; init; }

    /// <summary>Latest tap; null when there is none.</summary>
    public TapSeen? Tap { get; init; }

    /// <summary>Care entries, in any order.</summary>
    public IReadOnlyList<CareDone> Care { get; init; } = [];

    /// <summary>Mites per tap from which something is done. Default 10, usual for landscape conifers; for other plants no published threshold per tap was found.</summary>
    public double MitesPerTap { get; init; } = 10;
}
