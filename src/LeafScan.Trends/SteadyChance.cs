using LeafScan.Records;

namespace LeafScan.Trends;

/// <summary>Chance with a fixed beginning: the same record gives the same intervals, digit for digit, at every door.</summary>
public static class SteadyChance
{
    private const int Seed = 20260702;

    /// <summary>A fresh source; each walk of each plant starts from the same place, so that its figures do not hang on another's.</summary>
    public static Random New() => new(Seed);

    /// <summary>The series of one plant's leaves.</summary>
    public static IReadOnlyList<SeriesPoint> SeriesOf(IEnumerable<LeafOnRecord> leaves)
        => [.. leaves.GroupBy(leaf => (leaf.WalkedOn, leaf.WalkId)).OrderBy(walk => walk.Key).SelectMany(walk => Series.OfPlant(walk, null, New()))];
}
