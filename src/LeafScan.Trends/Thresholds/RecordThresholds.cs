using LeafScan.Records;

namespace LeafScan.Trends.Thresholds;

/// <summary>The thresholds in force in a record.</summary>
public static class RecordThresholds
{
    /// <summary>Reads the person's own beside the published ones.</summary>
    /// <param name="store">The record; null where there is none yet, then only the published ones are in force.</param>
    /// <exception cref="RecordException">One on record is no threshold that this version knows.</exception>
    public static ThresholdTable Load(RecordStore? store) => new([.. (store?.OwnThresholds() ?? []).SelectMany(Of)]);

    /// <summary>Sets a threshold; one of the same measure, plants and client is replaced. Can be undone.</summary>
    /// <param name="store">The record.</param>
    /// <param name="threshold">The threshold.</param>
    /// <returns>The thresholds as they are now.</returns>
    public static ThresholdTable Set(RecordStore store, Threshold threshold)
    {
        store.SetThreshold(Own(threshold), "threshold set");
        return Load(store);
    }

    /// <summary>Takes the person's own threshold away, so that the published one, if any, holds again. Can be undone.</summary>
    /// <param name="store">The record.</param>
    /// <param name="measure">Measure.</param>
    /// <param name="plants">Genus or species; null for the one that holds for all.</param>
    /// <param name="client">Client; null for the one that holds for all.</param>
    /// <returns>The threshold that was taken away; null when there was none.</returns>
    public static Threshold? Drop(RecordStore store, ThresholdMeasure measure, string? plants, string? client)
    {
        Threshold? gone = Load(store).Own.FirstOrDefault(old => IsSame(old, measure, plants, client));
        if (gone is not null)
        {
            store.DropThreshold(Own(gone), "threshold dropped");
        }

        return gone;
    }

    private static OwnThreshold Own(Threshold threshold)
        => new(ThresholdWords.NameOf(threshold.Measure), threshold.Value, threshold.Plants, threshold.Client, threshold.Region, threshold.Source);

    // A measure of another version says nothing here and stays on record for that version.
    private static IEnumerable<Threshold> Of(OwnThreshold own)
    {
        if (ThresholdWords.MeasureOf(own.Measure) is not { } measure)
        {
            return [];
        }

        return ThresholdWords.FaultOf(measure, own.Value) is null
            ? [new Threshold(measure, own.Value, own.Plants, own.Client, own.Region, own.Source, true)]
            : throw new RecordException(
                RecordTrouble.Damaged, FormattableString.Invariant($"Your threshold {own.Measure} has the number {own.Value}, which is out of range."), "Your record is not touched.",
                $"Set it anew: leafscan thresholds set {own.Measure} NUMBER --source TEXT{(own.Plants is { } plants ? $" --species \"{plants}\"" : "")}{(own.Client is { } client ? $" --client \"{client}\"" : "")}");
    }

    private static bool IsSame(Threshold own, ThresholdMeasure measure, string? plants, string? client)
        => own.Measure == measure && string.Equals(own.Plants, plants, StringComparison.OrdinalIgnoreCase) && string.Equals(own.Client, client, StringComparison.OrdinalIgnoreCase);
}
