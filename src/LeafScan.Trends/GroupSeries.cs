using LeafScan.Records;

namespace LeafScan.Trends;

/// <summary>One day in the series of a block, a place or a client.</summary>
/// <param name="Day">Day of the walks.</param>
/// <param name="All">All leaves of that day.</param>
/// <param name="Old">Those noted as old; null when there is none.</param>
/// <param name="NewGrowth">Those noted as new growth; null when there is none.</param>
public sealed record GroupPoint(DateOnly Day, GroupFigures All, GroupFigures? Old, GroupFigures? NewGrowth);

/// <summary>The series of a block, a place or a client: one point a day with walks. Not every plant need be photographed on each day; the points say how many were.</summary>
public static class GroupSeries
{
    // So many leaves are worth waking the other processors for; the usual block is done before they are awake.
    private const int Many = 50_000;

    /// <summary>Makes the series, oldest day first.</summary>
    /// <param name="leaves">Leaves of all plants of the group.</param>
    /// <param name="options">How; null for the defaults.</param>
    /// <param name="newRandom">Gives a fresh source of chance for each point, so that one point's figures do not hang on another's.</param>
    public static IReadOnlyList<GroupPoint> Of(IEnumerable<LeafDamage> leaves, TrendOptions? options, Func<Random> newRandom)
    {
        options = TrendOptions.OrUsual(options);
        Dictionary<DateOnly, List<LeafDamage>> days = [];
        int count = 0;
        foreach (LeafDamage leaf in leaves)
        {
            if (!days.TryGetValue(leaf.WalkedOn, out List<LeafDamage>? day))
            {
                days[leaf.WalkedOn] = day = [];
            }

            day.Add(leaf);
            count++;
        }

        List<LeafDamage>[] inOrder = [.. days.OrderBy(day => day.Key).Select(day => day.Value)];
        return count < Many
            ? [.. inOrder.Select(day => PointOf(day, options, newRandom))]
            : [.. inOrder.AsParallel().AsOrdered().Select(day => PointOf(day, options, newRandom))];
    }

    private static GroupPoint PointOf(List<LeafDamage> day, TrendOptions options, Func<Random> newRandom) => new(
        day[0].WalkedOn,
        GroupFigures.Of(day, options, newRandom()),
        OfAge(day, LeafGrowth.Old, options, newRandom),
        OfAge(day, LeafGrowth.New, options, newRandom));

    private static GroupFigures? OfAge(List<LeafDamage> all, LeafGrowth age, TrendOptions options, Func<Random> newRandom)
    {
        List<LeafDamage> leaves = all.FindAll(leaf => leaf.Age == age);
        return leaves.Count == 0 ? null : GroupFigures.Of(leaves, options, newRandom());
    }
}
