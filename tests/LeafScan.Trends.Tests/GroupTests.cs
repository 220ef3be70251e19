using LeafScan.Records;
using LeafScan.Trends.Blocks;
using LeafScan.Trends.Progress;
using LeafScan.Trends.Statistics;

namespace LeafScan.Trends.Tests;

public sealed class GroupTests
{
    [Fact]
    public void A_plant_with_many_leaves_counts_for_no_more_than_others_and_series_and_score_say_the_same()
    {
        LeafOnRecord[] leaves = [.. Of(1, 0.4, 0.4, 0.4, 0.4, 0.4, 0.4), .. Of(2, 0.0), .. Of(3, 0.1, 0.3)];
        GroupFigures group = GroupFigures.Of(leaves, new TrendOptions(), new Random(1));
        Assert.Equal((3, 9, 0.2), (group.PlantCount, group.LeafCount, Math.Round(group.Damage!.Value, 9)));
        BlockPlant[] plants = [.. leaves.GroupBy(leaf => leaf.PlantId).Select(plant => new BlockPlant($"P{plant.Key}", null, null, LeafFigures.Of(plant, new TrendOptions(), new Random(1))))];
        BlockFigures block = BlockFigures.Of(plants, new TrendOptions(), new Random(1));
        Assert.Equal(group.DamageInterval, block.DamageInterval);
    }

    [Fact]
    public void A_list_of_plants_says_what_the_series_says_of_the_last_walk_to_the_last_digit()
    {
        foreach (double[] damages in (double[][])[[0.1], [0.1, 0.3], [0.02, 0.031, 0.4, 0.05, 0.06, 0.27, 0.08], [.. Enumerable.Range(0, 30).Select(i => 0.37 * i % 1)]])
        {
            LeafOnRecord[] leaves = [.. Of(7, damages), Some.Leaf(0.9) with { PlantId = 7, Flags = ["damagedFile"] }];
            LeafFigures series = SteadyChance.SeriesOf(leaves)[^1].Leaves;
            PlantLastWalk list = PlantLastWalk.Of([.. leaves.Select(LeafDamage.Of)])!;
            Assert.Equal(
                (leaves[0].WalkedOn, series.LeafCount, series.LeafCountLeftOut, series.Damage, series.DamageInterval, series.AffectedCount),
                (list.WalkedOn, list.Leaves.LeafCount, list.Leaves.LeafCountLeftOut, list.Leaves.Damage, list.Leaves.DamageInterval, list.Leaves.AffectedCount));
        }

        Assert.Null(PlantLastWalk.Of([]));
    }

    [Fact]
    public void Fewer_than_five_plants_get_an_interval_at_least_as_wide_as_students()
    {
        // Student's 90 % interval of 0.1, 0.2, 0.3: mean 0.2, s 0.1, t(2, .95) = 2.919986 (any table), half width 0.16859.
        GroupFigures group = GroupFigures.Of([.. Of(1, 0.1), .. Of(2, 0.2), .. Of(3, 0.3)], new TrendOptions(), new Random(1));
        Assert.InRange(group.DamageInterval!.Value.Width, 2 * 0.16858, 1);
    }

    [Fact]
    public void Leaves_that_go_together_by_plant_are_worth_fewer_than_their_number()
    {
        // Every leaf of two plants affected, none of the other two: four things were seen, not forty.
        LeafOnRecord[] clumped = [.. Enumerable.Range(1, 4).SelectMany(plant => Of(plant, [.. Enumerable.Repeat(plant <= 2 ? 0.3 : 0.0, 10)]))];
        Interval wide = GroupFigures.Of(clumped, new TrendOptions(), new Random(1)).AffectedInterval!.Value;
        Interval four = WilsonInterval.Of(2, 4, new TrendOptions().Level);
        Assert.Equal((four.Low, four.High), (wide.Low, wide.High));
        LeafOnRecord[] mixed = [.. Enumerable.Range(1, 4).SelectMany(plant => Of(plant, 0.3, 0.0, 0.3, 0.0, 0.3, 0.0, 0.3, 0.0, 0.3, 0.0))];
        Interval narrow = GroupFigures.Of(mixed, new TrendOptions(), new Random(1)).AffectedInterval!.Value;
        Interval forty = WilsonInterval.Of(20, 40, new TrendOptions().Level);
        Assert.Equal((forty.Low, forty.High), (narrow.Low, narrow.High));
    }

    [Fact]
    public void A_tagged_leaf_keeps_its_readings_in_order_and_gains_by_the_week()
    {
        LeafOnRecord[] leaves =
        [
            Some.Leaf(0.10, Some.June.AddDays(14)) with { Tag = "3" }, Some.Leaf(0.04, Some.June) with { Tag = "3" },
            Some.Leaf(0.50, Some.June) with { Tag = "10" }, Some.Leaf(0.2, Some.June),
        ];
        IReadOnlyList<TaggedLeaf> tagged = TaggedLeaf.Of(leaves);
        Assert.Equal(["3", "10"], tagged.Select(leaf => leaf.Tag));
        Assert.Equal(0.03, tagged[0].GainAWeek!.Value, 9);
        Assert.Null(tagged[1].GainAWeek);
    }

    [Fact]
    public void The_change_of_tagged_leaves_is_that_of_each_leaf_and_not_of_the_mean_of_others()
    {
        LeafOnRecord[] before = [.. Labelled(Some.June, 0.02, 0.10, 0.30), Some.Leaf(0.9, Some.June) with { Tag = "gone" }];
        LeafOnRecord[] after = [.. Labelled(Some.July, 0.05, 0.13, 0.33), Some.Leaf(0.0, Some.July) with { Tag = "new" }];
        TaggedChange change = TaggedChange.Of(before, after, 0.9)!;
        Assert.Equal((3, 0.03), (change.LeafCount, Math.Round(change.Difference, 9)));
        Assert.True(change.Interval.Low > 0 && change.MoreLeaves == 0);
        Assert.Null(TaggedChange.Of(before[..1], after[..1], 0.9));
    }

    [Fact]
    public void Mite_days_are_the_area_under_the_mean_of_each_days_taps()
    {
        // By trapezium: (4 + 10) / 2 over 7 days, then (10 + 0) / 2 over 7: 49 and 84.
        IReadOnlyList<TapDay> days = TapDay.Of([Tap(Some.June, 2), Tap(Some.June, 6), Tap(Some.June.AddDays(7), 10), Tap(Some.June.AddDays(14), 0)]);
        Assert.Equal([(2, 4.0, 0.0), (1, 10.0, 49.0), (1, 0.0, 84.0)], days.Select(day => (day.TapCount, day.MitesATap, day.MiteDays)));
        Assert.Empty(TapDay.Of([]));
    }

    [Fact]
    public void A_sheet_of_several_branches_counts_for_as_many_taps()
    {
        // 12 mites on three branches and 4 on one: 16 on four, not a mean of 8. On 7 July 6 on two.
        IReadOnlyList<TapDay> days = TapDay.Of([Tap(Some.June, 12, 3), Tap(Some.June, 4), Tap(Some.June.AddDays(7), 6, 2)]);
        Assert.Equal([(2, 4.0, 0.0), (1, 3.0, 24.5)], days.Select(day => (day.TapCount, day.MitesATap, day.MiteDays)));
        Assert.Equal(4, TapOnRecord.MitesABranch([Tap(Some.June, 12, 3), Tap(Some.June, 4, 1)]));
    }

    private static IEnumerable<LeafOnRecord> Of(long plant, params double[] damages) => damages.Select(damage => Some.Leaf(damage) with { PlantId = plant });

    private static IEnumerable<LeafOnRecord> Labelled(DateOnly day, params double[] damages) => damages.Select((damage, i) => Some.Leaf(damage, day) with { Tag = $"{i + 1}" });

    private static TapOnRecord Tap(DateOnly day, int mites, int? branches = null) => new(1, new NewTap { PlantId = 1, Day = day, MitesByLens = mites, Branches = branches });
}
