using LeafScan.Leaves;
using LeafScan.Trends.Thresholds;

namespace LeafScan.Cli.Screen;

/// <summary>Thresholds as a document.</summary>
internal static class ThresholdDocument
{
    /// <summary>All in force.</summary>
    public static object Of(ThresholdTable table) => new
    {
        schema = "leafscan.thresholds/1",
        tool = ToolVersion.Current,
        thresholds = table.All.Select(Entry),
    };

    /// <summary>One of them; shares 0..1.</summary>
    public static object Entry(Threshold threshold) => new
    {
        measure = ThresholdWords.NameOf(threshold.Measure),
        value = threshold.Value,
        meaning = ThresholdWords.MeaningOf(threshold.Measure),
        plants = threshold.Plants,
        client = threshold.Client,
        region = threshold.Region,
        source = threshold.Source,
        own = threshold.IsOwn,
    };
}
