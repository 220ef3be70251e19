using LeafScan.Leaves.Reading;

namespace LeafScan.Walks.Measuring;

/// <summary>All leaves of a photo as one line: each counts by its area.</summary>
/// <param name="Leaves">Number of leaves.</param>
/// <param name="Shares">Shares of all leaves together, 0..1.</param>
/// <param name="Damage">Damage of all tissue that is there and can be judged, 0..1.</param>
/// <param name="DamageLow">Lower ends of the leaves' intervals, averaged by area: a wide rather than a narrow interval.</param>
/// <param name="DamageHigh">Upper ends, likewise.</param>
/// <param name="SpeckCount">Specks of all leaves.</param>
/// <param name="Flags">Every doubt once: the photo's, then the leaves'.</param>
public sealed record PhotoSummary(
    int Leaves, LeafShares Shares, double Damage, double DamageLow, double DamageHigh, int SpeckCount, IReadOnlyList<string> Flags)
{
    /// <summary>Sums up a photo's reading.</summary>
    public static PhotoSummary Of(PhotoReading reading)
    {
        double total = reading.Leaves.Sum(leaf => leaf.AreaPx);
        double Mean(Func<LeafReading, double> value) =>
            total > 0 ? reading.Leaves.Sum(leaf => leaf.AreaPx * value(leaf)) / total : 0;

        LeafShares shares = new(
            Mean(leaf => leaf.Shares.Sound),
            Mean(leaf => leaf.Shares.Stippled),
            Mean(leaf => leaf.Shares.Yellowed),
            Mean(leaf => leaf.Shares.Browned),
            Mean(leaf => leaf.Shares.Chewed),
            Mean(leaf => leaf.Shares.Unassessed));
        return new PhotoSummary(
            reading.Leaves.Count,
            shares,
            reading.Leaves.Count == 1 ? reading.Leaves[0].Damage : shares.Damage,
            Mean(leaf => leaf.DamageLow),
            Mean(leaf => leaf.DamageHigh),
            reading.Leaves.Sum(leaf => leaf.SpeckCount),
            [.. reading.Flags.Concat(reading.Leaves.SelectMany(leaf => leaf.Flags)).Distinct()]);
    }
}
