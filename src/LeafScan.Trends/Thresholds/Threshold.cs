namespace LeafScan.Trends.Thresholds;

/// <summary>What a threshold is measured in.</summary>
public enum ThresholdMeasure
{
    /// <summary>Live mites a tapped branch from which something is done.</summary>
    MitesPerTap,

    /// <summary>Predators for each mite from which the mites are left to them.</summary>
    PredatorsPerMite,

    /// <summary>Share of leaves with mites that is surely no trouble: the low end of the leaf-by-leaf look.</summary>
    LeavesWithMitesLow,

    /// <summary>Share of leaves with mites that surely asks for something: its high end.</summary>
    LeavesWithMitesHigh,

    /// <summary>Share of the leaf that is discoloured from which people call a plant damaged.</summary>
    DamageInSight,
}

/// <summary>A number from which something is done. Regions differ: it never comes without source and region.</summary>
/// <param name="Measure">What it is measured in.</param>
/// <param name="Value">The number, in the measure's unit; shares 0..1.</param>
/// <param name="Plants">Genus or species it holds for, or <see cref="Conifers"/>; null for all plants.</param>
/// <param name="Client">Client it holds for; null for all.</param>
/// <param name="Region">Where it comes from; empty when not told.</param>
/// <param name="Source">Who says so.</param>
/// <param name="IsOwn">Whether the person set it; false for what the tool brings along.</param>
public sealed record Threshold(ThresholdMeasure Measure, double Value, string? Plants, string? Client, string Region, string Source, bool IsOwn)
{
    /// <summary>Word for all genera of conifers in <see cref="Plants"/>.</summary>
    public const string Conifers = "conifers";

    /// <summary>Whether it holds for a plant.</summary>
    /// <param name="species">Botanical name; null when not known.</param>
    /// <param name="client">Client of its place; null for none.</param>
    public bool HoldsFor(string? species, string? client)
        => (Plants is null || (string.Equals(Plants, Conifers, StringComparison.OrdinalIgnoreCase) ? Genera.IsConifer(species) : IsNamed(species)))
        && (Client is null || string.Equals(Client, client, StringComparison.OrdinalIgnoreCase));

    // "Picea" holds for "Picea glauca", "Picea glauca" for its cultivars, neither for "Piceaster".
    private bool IsNamed(string? species)
        => species is not null && (species.Trim() + " ").StartsWith(Plants + " ", StringComparison.OrdinalIgnoreCase);
}
