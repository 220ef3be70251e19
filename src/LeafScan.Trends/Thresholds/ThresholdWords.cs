using System.Globalization;

namespace LeafScan.Trends.Thresholds;

/// <summary>Names and units of thresholds, as commands and files write them.</summary>
public static class ThresholdWords
{
    private static readonly (ThresholdMeasure Measure, string Name, string Meaning)[] Names =
    [
        (ThresholdMeasure.MitesPerTap, "mites-per-tap", "live mites a tap from which something is done"),
        (ThresholdMeasure.PredatorsPerMite, "predators-per-mite", "predators for each mite from which mites are left to them"),
        (ThresholdMeasure.LeavesWithMitesLow, "leaves-with-mites-low", "% of leaves with mites that is surely no trouble"),
        (ThresholdMeasure.LeavesWithMitesHigh, "leaves-with-mites-high", "% of leaves with mites that surely asks for something"),
        (ThresholdMeasure.DamageInSight, "damage-in-sight", "% of the leaf discoloured from which people call a plant damaged"),
    ];

    /// <summary>Every name.</summary>
    public static IReadOnlyList<string> All { get; } = [.. Names.Select(name => name.Name)];

    /// <summary>The name of a measure, such as "mites-per-tap".</summary>
    public static string NameOf(ThresholdMeasure measure) => Names.Single(name => name.Measure == measure).Name;

    /// <summary>What it says, with its unit.</summary>
    public static string MeaningOf(ThresholdMeasure measure) => Names.Single(name => name.Measure == measure).Meaning;

    /// <summary>The measure of a name; null for none of ours.</summary>
    public static ThresholdMeasure? MeasureOf(string name)
        => Names.FirstOrDefault(known => known.Name == name) is { Name: not null } found ? found.Measure : null;

    /// <summary>Whether people write it in %.</summary>
    public static bool IsPercent(ThresholdMeasure measure) => measure is ThresholdMeasure.LeavesWithMitesLow or ThresholdMeasure.LeavesWithMitesHigh or ThresholdMeasure.DamageInSight;

    /// <summary>The number as people write it: "10", "22 %".</summary>
    public static string NumberOf(Threshold threshold) => IsPercent(threshold.Measure)
        ? (threshold.Value * 100).ToString("0.###", CultureInfo.InvariantCulture) + " %"
        : threshold.Value.ToString("0.###", CultureInfo.InvariantCulture);

    /// <summary>Source and region in one piece, as advice names them.</summary>
    public static string SourceOf(Threshold threshold)
        => $"{(threshold.IsOwn ? "your own: " : string.Empty)}{threshold.Source}{(threshold.Region.Length > 0 ? $" ({threshold.Region})" : string.Empty)}";

    /// <summary>Why a number cannot be a threshold of this kind; null when it can.</summary>
    /// <param name="measure">Kind.</param>
    /// <param name="value">The number; shares 0..1.</param>
    public static string? FaultOf(ThresholdMeasure measure, double value) => measure switch
    {
        ThresholdMeasure.MitesPerTap when value is > 0 and <= 100_000 => null,
        ThresholdMeasure.MitesPerTap => "mites-per-tap lies above 0 and at most at 100000",
        ThresholdMeasure.PredatorsPerMite when value is > 0 and <= 100 => null,
        ThresholdMeasure.PredatorsPerMite => "predators-per-mite lies above 0 and at most at 100",
        _ when value is > 0 and < 1 => null,
        _ => $"{NameOf(measure)} lies between 0 and 100 %, both left out",
    };
}
