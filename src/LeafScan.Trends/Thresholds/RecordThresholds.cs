using LeafScan.Records;

namespace LeafScan.Trends.Thresholds;

/// <summary>The thresholds in force in a data folder.</summary>
public static class RecordThresholds
{
    /// <summary>Reads the person's own beside the published ones.</summary>
    /// <param name="dataFolder">The data folder; need not exist.</param>
    /// <exception cref="RecordException">The file cannot be read, or holds a number that is no threshold.</exception>
    public static ThresholdTable Load(string dataFolder) => new([.. OwnThresholds.Load(dataFolder).Select(own => Of(own, dataFolder))]);

    /// <summary>Sets a threshold; one of the same measure, plants and client is replaced.</summary>
    /// <param name="dataFolder">The data folder; made when missing.</param>
    /// <param name="threshold">The threshold.</param>
    /// <returns>The thresholds as they are now.</returns>
    public static ThresholdTable Set(string dataFolder, Threshold threshold)
        => Save(dataFolder, [.. Load(dataFolder).Own.Where(old => !IsSame(old, threshold.Measure, threshold.Plants, threshold.Client)), threshold with { IsOwn = true }]);

    /// <summary>Takes the person's own threshold away, so that the published one, if any, holds again.</summary>
    /// <param name="dataFolder">The data folder.</param>
    /// <param name="measure">Measure.</param>
    /// <param name="plants">Genus or species; null for the one that holds for all.</param>
    /// <param name="client">Client; null for the one that holds for all.</param>
    /// <returns>The threshold that was taken away; null when there was none.</returns>
    public static Threshold? Drop(string dataFolder, ThresholdMeasure measure, string? plants, string? client)
    {
        IReadOnlyList<Threshold> own = Load(dataFolder).Own;
        Threshold? gone = own.FirstOrDefault(old => IsSame(old, measure, plants, client));
        if (gone is not null)
        {
            Save(dataFolder, [.. own.Where(old => old != gone)]);
        }

        return gone;
    }

    private static ThresholdTable Save(string dataFolder, IReadOnlyList<Threshold> own)
    {
        OwnThresholds.Save(dataFolder, [.. own.Select(threshold => new OwnThreshold(
            ThresholdWords.NameOf(threshold.Measure), threshold.Value, threshold.Plants, threshold.Client, threshold.Region, threshold.Source))]);
        return new ThresholdTable(own);
    }

    private static Threshold Of(OwnThreshold own, string dataFolder)
        => ThresholdWords.MeasureOf(own.Measure) is { } measure && ThresholdWords.FaultOf(measure, own.Value) is null
            ? new Threshold(measure, own.Value, own.Plants, own.Client, own.Region, own.Source, true)
            : throw new RecordException(
                RecordTrouble.Damaged, $"In {Path.Combine(dataFolder, OwnThresholds.FileName)} \"{own.Measure}\" is no threshold that this LeafScan knows, or its number is out of range.", "Your record is not touched.",
                "Mend that entry or remove the file, then run this again.");

    private static bool IsSame(Threshold own, ThresholdMeasure measure, string? plants, string? client)
        => own.Measure == measure && string.Equals(own.Plants, plants, StringComparison.OrdinalIgnoreCase) && string.Equals(own.Client, client, StringComparison.OrdinalIgnoreCase);
}
