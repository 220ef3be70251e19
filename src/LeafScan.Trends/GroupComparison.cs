using LeafScan.Records;
using LeafScan.Trends.Statistics;

namespace LeafScan.Trends;

/// <summary>
/// A block, a place or a client in one month beside another. Leaves of one plant are not independent, so each plant is one
/// value: the mean of its leaves. Only plants with leaves in both months count, and the interval is over plants.
/// </summary>
public sealed record GroupComparison
{
    /// <summary>Plants with a leaf that counts in both months.</summary>
    public required int PlantCount { get; init; }

    /// <summary>Plants left out: a leaf that counts in one of the months only.</summary>
    public required int PlantCountLeftOut { get; init; }

    /// <summary>Mean of the plants' changes, later minus earlier, -1..1; null without a plant in both.</summary>
    public required double? Difference { get; init; }

    /// <summary>Pairs of plant means with Student's interval; null for fewer than two plants.</summary>
    public required PairedDifference? Pairs { get; init; }

    /// <summary>Exact signed-rank test over plants as a check that does not lean on the normal curve; null when no plant changed.</summary>
    public required WilcoxonSignedRank? SignedRank { get; init; }

    /// <summary>Smallest mean change that so many plants could show (power 0.8); null for fewer than two plants.</summary>
    public required double? SmallestChange { get; init; }

    /// <summary>How many more plants would settle a change as large as the one seen; 0 when it is settled, null for "cannot say".</summary>
    public required int? MorePlantsToSettle { get; init; }

    /// <summary>
    /// The same of tagged leaves photographed in both months: one value a plant, the mean of what its tagged leaves gained; null for fewer
    /// than two plants with such leaves. Far narrower, and untouched by leaf drop and new leaves.
    /// </summary>
    public required PairedDifference? TaggedPairs { get; init; }

    /// <summary>Compares two months.</summary>
    /// <param name="leaves">Leaves of all plants of the group; those of other months are passed over.</param>
    /// <param name="from">The earlier month.</param>
    /// <param name="to">The later month.</param>
    /// <param name="options">How; null for the defaults.</param>
    /// <exception cref="ArgumentException"><paramref name="from"/> does not lie before <paramref name="to"/>, or an option is out of range.</exception>
    public static GroupComparison Of(IEnumerable<LeafOnRecord> leaves, Month from, Month to, TrendOptions? options = null)
    {
        options = TrendOptions.OrUsual(options);
        if (from.FirstDay >= to.FirstDay)
        {
            throw new ArgumentException($"{from} does not lie before {to}.", nameof(from));
        }

        List<LeafOnRecord> good = [.. leaves.Where(leaf => LeafFigures.Counts(leaf, options))];
        Dictionary<long, double> earlier = Means(good, from);
        Dictionary<long, double> later = Means(good, to);
        double[] changes = [.. earlier.Keys.Where(later.ContainsKey).Order().Select(plant => later[plant] - earlier[plant])];
        PairedDifference? pairs = PairedDifference.Of(changes, options.Level);
        return new GroupComparison
        {
            PlantCount = changes.Length,
            PlantCountLeftOut = earlier.Keys.Union(later.Keys).Count() - changes.Length,
            Difference = changes.Length == 0 ? null : changes.Average(),
            Pairs = pairs,
            SignedRank = WilcoxonSignedRank.Of(changes),
            SmallestChange = pairs is null ? null : Statistics.SmallestChange.OfPairs(pairs.DifferenceSd, pairs.Count, options.Level),
            MorePlantsToSettle = pairs is null ? null : More(pairs, options.Level),
            TaggedPairs = PairedDifference.Of(TaggedGains(good, from, to), options.Level),
        };
    }

    private static double[] TaggedGains(List<LeafOnRecord> leaves, Month from, Month to)
    {
        Dictionary<(long Plant, string Tag), double> earlier = TaggedMeans(leaves, from);
        Dictionary<(long Plant, string Tag), double> later = TaggedMeans(leaves, to);
        return
        [
            .. earlier.Where(leaf => later.ContainsKey(leaf.Key)).GroupBy(leaf => leaf.Key.Plant).OrderBy(plant => plant.Key)
                .Select(plant => plant.Average(leaf => later[leaf.Key] - leaf.Value)),
        ];
    }

    private static Dictionary<(long Plant, string Tag), double> TaggedMeans(List<LeafOnRecord> leaves, Month month)
        => leaves.Where(leaf => leaf.Tag is not null && month.Holds(leaf.WalkedOn)).GroupBy(leaf => (leaf.PlantId, leaf.Tag!.ToUpperInvariant()))
            .ToDictionary(leaf => leaf.Key, leaf => leaf.Average(reading => reading.Damage));

    private static int? More(PairedDifference pairs, double level)
        => !pairs.Interval.Holds(0) ? 0
        : Statistics.SmallestChange.PairsFor(pairs.Difference, pairs.DifferenceSd, level) is { } needed ? Math.Max(1, needed - pairs.Count)
        : null;

    private static Dictionary<long, double> Means(List<LeafOnRecord> leaves, Month month)
        => leaves.Where(leaf => month.Holds(leaf.WalkedOn)).GroupBy(leaf => leaf.PlantId).ToDictionary(plant => plant.Key, plant => plant.Average(leaf => leaf.Damage));
}
