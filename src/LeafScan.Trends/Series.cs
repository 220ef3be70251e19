using LeafScan.Records;

namespace LeafScan.Trends;

/// <summary>One walk in the series of a plant.</summary>
/// <param name="WalkId">Walk.</param>
/// <param name="WalkedOn">Its day.</param>
/// <param name="Leaves">What the plant's leaves of that walk say.</param>
public sealed record SeriesPoint(long WalkId, DateOnly WalkedOn, LeafFigures Leaves);

/// <summary>The series of one plant: one point a walk.</summary>
public static class Series
{
    /// <summary>Makes the series, oldest walk first. A walk without a leaf of the plant has no point.</summary>
    /// <param name="leaves">Leaves of one plant, from <see cref="RecordStore.LeavesOfPlant"/>.</param>
    /// <param name="options">How; null for the defaults.</param>
    /// <param name="random">Source of chance; a fresh one of the same seed gives the same intervals.</param>
    public static IReadOnlyList<SeriesPoint> OfPlant(IEnumerable<LeafOnRecord> leaves, TrendOptions? options, Random random)
    {
        options = TrendOptions.OrUsual(options);
        return [.. leaves
            .GroupBy(leaf => (leaf.WalkedOn, leaf.WalkId))
            .OrderBy(walk => walk.Key)
            .Select(walk => new SeriesPoint(walk.Key.WalkId, walk.Key.WalkedOn, LeafFigures.Of(walk, options, random)))];
    }

    /// <summary>Series kept apart, such as old leaves and new growth: one series a group, in the groups' order.</summary>
    /// <typeparam name="TGroup">What tells groups apart, such as the age of a leaf.</typeparam>
    /// <param name="leaves">Leaves of one plant.</param>
    /// <param name="groupOf">The group of a leaf.</param>
    /// <param name="options">How; null for the defaults.</param>
    /// <param name="newRandom">Gives a fresh source of chance for each group, so that one group's figures do not hang on another's.</param>
    public static IReadOnlyList<(TGroup Group, IReadOnlyList<SeriesPoint> Points)> Apart<TGroup>(
        IEnumerable<LeafOnRecord> leaves, Func<LeafOnRecord, TGroup> groupOf, TrendOptions? options, Func<Random> newRandom)
        => [.. leaves.GroupBy(groupOf).OrderBy(group => group.Key).Select(group => (group.Key, OfPlant(group, options, newRandom())))];
}
