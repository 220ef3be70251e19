namespace LeafScan.Trends.Thresholds;

/// <summary>The thresholds in force: those that were published, and before them those that the person set.</summary>
/// <param name="Own">What the person set.</param>
public sealed record ThresholdTable(IReadOnlyList<Threshold> Own)
{
    /// <summary>
    /// What the tool brings along. None was found per tap for burning bush, boxwood, rose or any other plant than conifers, so there is
    /// none: another plant's number would be invented.
    /// </summary>
    public static IReadOnlyList<Threshold> Published { get; } =
    [
        new(ThresholdMeasure.MitesPerTap, 10, Threshold.Conifers, null, "Nebraska, landscape conifers", "Nebraska Extension column 2023 (the number was read there, the rest of its sentence is from memory)", false),
        new(ThresholdMeasure.PredatorsPerMite, 0.1, null, null, "California", "UC IPM Pest Notes 7405: 1 predator to 10 mites (as other pages quote it)", false),
        new(ThresholdMeasure.LeavesWithMitesLow, 0.22, null, null, "California, almond: a stand-in for ornamentals", "Zalom et al. 1984, Hilgardia 52(7):14-24 (abstract): treated from there on where predators are missing", false),
        new(ThresholdMeasure.LeavesWithMitesHigh, 0.436, null, null, "California, almond: a stand-in for ornamentals", "Zalom et al. 1984, Hilgardia 52(7):14-24 (abstract): treated from there on where predators are there", false),
        new(ThresholdMeasure.DamageInSight, 0.05, "Euonymus alatus", null, "not stated", "Sadof and Alexander 1993, J. Econ. Entomol. (abstract; authors and year from memory): half of 134 nursery customers called plants damaged below 5 %", false),
    ];

    /// <summary>Only what the tool brings along.</summary>
    public static ThresholdTable Plain { get; } = new([]);

    /// <summary>All of it, the person's first.</summary>
    public IEnumerable<Threshold> All => Own.Concat(Published);

    /// <summary>
    /// The threshold of a plant: the person's before published ones, among these the client's before those for all, then the one
    /// that names the plant most closely.
    /// </summary>
    /// <param name="measure">Which.</param>
    /// <param name="species">Botanical name; null when not known.</param>
    /// <param name="client">Client of its place; null for none.</param>
    /// <returns>Null when none is published or set: then there is none to go by.</returns>
    public Threshold? For(ThresholdMeasure measure, string? species, string? client)
        => All.Where(threshold => threshold.Measure == measure && threshold.HoldsFor(species, client))
            .OrderByDescending(threshold => threshold.IsOwn)
            .ThenByDescending(threshold => threshold.Client is not null)
            .ThenByDescending(threshold => threshold.Plants?.Length ?? 0)
            .FirstOrDefault();
}
