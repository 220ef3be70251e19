using LeafScan.Records;
using LeafScan.Trends.Statistics;
using MathNet.Numerics.Distributions;

namespace LeafScan.Trends;

/// <summary>One tagged leaf through its walks.</summary>
/// <param name="Tag">Its label.</param>
/// <param name="Readings">Its readings, oldest first, those that count.</param>
public sealed record TaggedLeaf(string Tag, IReadOnlyList<LeafOnRecord> Readings)
{
    /// <summary>Damage gained from the first to the last reading, -1..1. Damage does not heal: below 0 is the photos' doing.</summary>
    public double Gain => Readings[^1].Damage - Readings[0].Damage;

    /// <summary>The same a week; null for a leaf seen on one day only.</summary>
    public double? GainAWeek => (Readings[^1].WalkedOn.DayNumber - Readings[0].WalkedOn.DayNumber) is var days and > 0 ? Gain * 7 / days : null;

    /// <summary>The tagged leaves of one plant, by label; "2" comes before "10".</summary>
    /// <param name="leaves">Leaves of one plant.</param>
    /// <param name="options">Which leaves count; null for the defaults.</param>
    public static IReadOnlyList<TaggedLeaf> Of(IEnumerable<LeafOnRecord> leaves, TrendOptions? options = null)
    {
        options = TrendOptions.OrUsual(options);
        return
        [
            .. leaves.Where(leaf => leaf.Tag is not null && LeafFigures.Counts(leaf, options)).GroupBy(leaf => leaf.Tag!, StringComparer.OrdinalIgnoreCase)
                .OrderBy(leaf => leaf.Key.Length).ThenBy(leaf => leaf.Key, StringComparer.OrdinalIgnoreCase)
                .Select(leaf => new TaggedLeaf(leaf.Key, [.. leaf.OrderBy(reading => reading.WalkedOn).ThenBy(reading => reading.PhotoId)])),
        ];
    }
}

/// <summary>The same tagged leaves of one plant in two months: each leaf is its own measure.</summary>
/// <param name="LeafCount">Leaves with readings in both.</param>
/// <param name="Difference">Mean of later minus earlier, -1..1.</param>
/// <param name="Interval">Its interval: Student's over the leaves, widened by an error that all leaves of a walk share.</param>
/// <param name="SmallestChange">Smallest mean change that so many pairs could show (power 0.8).</param>
/// <param name="MoreLeaves">How many more tagged leaves would settle a change as large as the one seen; 0 when it is settled, null for "cannot say".</param>
public sealed record TaggedChange(int LeafCount, double Difference, Interval Interval, double SmallestChange, int? MoreLeaves)
{
    /// <summary>Standard deviation of an error that all leaves of one walk share (light, camera, person), as in the verdict. An assumption, not measured.</summary>
    private const double WalkSpread = 0.003;

    /// <summary>Compares.</summary>
    /// <param name="earlier">Leaves of the earlier month that count.</param>
    /// <param name="later">Leaves of the later month that count.</param>
    /// <param name="level">Level of trust, between 0 and 1.</param>
    /// <returns>Null for fewer than two leaves in both.</returns>
    public static TaggedChange? Of(IEnumerable<LeafOnRecord> earlier, IEnumerable<LeafOnRecord> later, double level)
    {
        Dictionary<(long, string), double> first = Means(earlier);
        Dictionary<(long, string), double> second = Means(later);
        double[] changes = [.. first.Where(leaf => second.ContainsKey(leaf.Key)).OrderBy(leaf => leaf.Key).Select(leaf => second[leaf.Key] - leaf.Value)];
        if (PairedDifference.Of(changes, level) is not { } pairs)
        {
            return null;
        }

        double half = Math.Sqrt(Math.Pow(pairs.Interval.Width / 2, 2) + (2 * Math.Pow(Normal.InvCDF(0, 1, (1 + level) / 2) * WalkSpread, 2)));
        Interval interval = new(pairs.Difference - half, pairs.Difference + half, level);
        return new TaggedChange(
            pairs.Count,
            pairs.Difference,
            interval,
            Statistics.SmallestChange.OfPairs(pairs.DifferenceSd, pairs.Count, level),
            !interval.Holds(0) ? 0
                : Statistics.SmallestChange.PairsFor(pairs.Difference, pairs.DifferenceSd, level) is { } needed ? Math.Max(1, needed - pairs.Count)
                : null);
    }

    private static Dictionary<(long, string), double> Means(IEnumerable<LeafOnRecord> leaves)
        => leaves.Where(leaf => leaf.Tag is not null).GroupBy(leaf => (leaf.PlantId, leaf.Tag!.ToUpperInvariant())).ToDictionary(leaf => leaf.Key, leaf => leaf.Average(reading => reading.Damage));
}
