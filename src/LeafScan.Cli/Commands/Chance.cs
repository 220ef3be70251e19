using LeafScan.Records;
using LeafScan.Trends;

namespace LeafScan.Cli.Commands;

/// <summary>Series with a fixed source of chance: the same record gives the same intervals, digit for digit.</summary>
internal static class Chance
{
    /// <summary>A fresh source; each walk of each plant starts from the same place, so that its figures do not hang on another's.</summary>
    public static Random New() => SteadyChance.New();

    /// <summary>The series of a plant.</summary>
    public static IReadOnlyList<SeriesPoint> SeriesOf(RecordStore store, long plantId) => SeriesOf(store.LeavesOfPlant(plantId));

    /// <summary>The series of one plant's leaves.</summary>
    public static IReadOnlyList<SeriesPoint> SeriesOf(IEnumerable<LeafOnRecord> leaves) => SteadyChance.SeriesOf(leaves);
}
