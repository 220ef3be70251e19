using LeafScan.Trends.Statistics;

namespace LeafScan.Trends.Blocks;

/// <summary>One plant of a block with what was measured on it.</summary>
/// <param name="Code">Its code.</param>
/// <param name="Row">Row in which it stands; null when not told as a number.</param>
/// <param name="Position">Place within the row; null when not told as a number.</param>
/// <param name="Figures">Its leaves together.</param>
public sealed record BlockPlant(string Code, int? Row, int? Position, LeafFigures Figures)
{
    /// <summary>Whether at least one of its leaves is affected; null when no leaf counts.</summary>
    public bool? IsAffected => Figures.LeafCount == 0 ? null : Figures.AffectedCount > 0;
}

/// <summary>
/// What a walk through a block says of the block. The plant is the unit: plants with many photos do not count for more than
/// others, and the interval is one over plants.
/// </summary>
public sealed record BlockFigures
{
    /// <summary>Plants with a leaf that counts.</summary>
    public required int PlantCount { get; init; }

    /// <summary>Plants of which nothing could be measured.</summary>
    public required int PlantCountLeftOut { get; init; }

    /// <summary>Leaves that count.</summary>
    public required int LeafCount { get; init; }

    /// <summary>Plants with at least one leaf of <see cref="TrendOptions.AffectedFrom"/> damage or more.</summary>
    public required int AffectedCount { get; init; }

    /// <summary>Incidence: affected plants among those that count, 0..1; null when none counts.</summary>
    public double? Incidence => PlantCount == 0 ? null : (double)AffectedCount / PlantCount;

    /// <summary>Wilson's interval of the incidence; null when no plant counts.</summary>
    public required Interval? IncidenceInterval { get; init; }

    /// <summary>Mean of the plants' mean damage, 0..1; null when no plant counts.</summary>
    public required double? Damage { get; init; }

    /// <summary>
    /// Interval of that mean over plants, by <see cref="MeanInterval"/>; of a single plant its own. Null when no plant counts.
    /// </summary>
    public required Interval? DamageInterval { get; init; }

    /// <summary>The plants that count, worst first.</summary>
    public required IReadOnlyList<BlockPlant> WorstFirst { get; init; }

    /// <summary>Puts plants together.</summary>
    /// <param name="plants">The plants of the block.</param>
    /// <param name="options">How.</param>
    /// <param name="random">Source of chance for the interval.</param>
    public static BlockFigures Of(IReadOnlyList<BlockPlant> plants, TrendOptions options, Random random)
    {
        List<BlockPlant> good = [.. plants.Where(plant => plant.Figures.Damage is not null)];
        int affected = good.Count(plant => plant.IsAffected == true);
        return new BlockFigures
        {
            PlantCount = good.Count,
            PlantCountLeftOut = plants.Count - good.Count,
            LeafCount = good.Sum(plant => plant.Figures.LeafCount),
            AffectedCount = affected,
            IncidenceInterval = good.Count == 0 ? null : WilsonInterval.Of(affected, good.Count, options.Level),
            Damage = good.Count == 0 ? null : good.Average(plant => plant.Figures.Damage),
            DamageInterval = IntervalOf(good, options, random),
            WorstFirst = [.. good.OrderByDescending(plant => plant.Figures.Damage).ThenBy(plant => plant.Code, StringComparer.Ordinal)],
        };
    }

    private static Interval? IntervalOf(List<BlockPlant> good, TrendOptions options, Random random) => good.Count == 1
        ? good[0].Figures.DamageInterval
        : MeanInterval.Of([.. good.Select(plant => plant.Figures).Select(plant => new MeasuredDamage(plant.Damage!.Value, plant.MeasuringInterval!.Value.Low, plant.MeasuringInterval.Value.High))], options, random);
}
