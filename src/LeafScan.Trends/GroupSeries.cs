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
    /// <summary>Makes the series, oldest day first.</summary>
    /// <param name="leaves">Leaves of all plants of the group.</param>
    /// <param name="options">How; null for the defaults.</param>
    /// <param name="newRandom">Gives a fresh source of chance for each point, so that one point's figures do not hang on another's.</param>
    public static IReadOnlyList<GroupPoint> Of(IEnumerable<LeafOnRecord> leaves, TrendOptions? options, Func<Random> newRandom)
    {
        options = (options ?? new TrendOptions()).Checked();
        return
        [
            .. leaves.GroupBy(leaf => leaf.WalkedOn).OrderBy(day => day.Key).AsParallel().AsOrdered().Select(day =>
            {
                LeafOnRecord[] all = [.. day];
                return new GroupPoint(
                    day.Key,
                    GroupFigures.Of(all, options, newRandom()),
                    OfAge(all, LeafGrowth.Old, options, newRandom),
                    OfAge(all, LeafGrowth.New, options, newRandom));
            }),
        ];
    }

    private static GroupFigures? OfAge(LeafOnRecord[] all, LeafGrowth age, TrendOptions options, Func<Random> newRandom)
    {
        LeafOnRecord[] leaves = [.. all.Where(leaf => leaf.Age == age)];
        return leaves.Length == 0 ? null : GroupFigures.Of(leaves, options, newRandom());
    }
}
