using LeafScan.Records;
using LeafScan.Trends;

namespace LeafScan.Cli.Commands;

/// <summary>Series with a fixed source of chance: the same record gives the same intervals, digit for digit.</summary>
internal static class Chance
{
    private const int Seed = 20260702;

    /// <summary>A fresh source; each plant starts from the same place, so that one plant's figures do not hang on another's.</summary>
    public static Random New() => new(Seed);

    /// <summary>The series of a plant.</summary>
    public static IReadOnlyList<SeriesPoint> SeriesOf(RecordStore store, long plantId) => Series.OfPlant(store.LeavesOfPlant(plantId), null, New());
}
