using LeafScan.Leaves.Reading;
using LeafScan.Records;
using LeafScan.Trends.Statistics;

namespace LeafScan.Trends.Tests;

public sealed class SeriesTests
{
    private static readonly TrendOptions Defaults = new();

    [Fact]
    public void A_series_has_one_point_a_walk_oldest_first()
    {
        IReadOnlyList<SeriesPoint> series = Series.OfPlant([.. Some.Leaves(Some.July, 0.3), .. Some.Leaves(Some.June, 0.1, 0.2)], null, new Random(1));

        Assert.Equal([(Some.June, 2), (Some.July, 1)], series.Select(point => (point.WalkedOn, point.Leaves.LeafCount)));
        Assert.Equal([0.15, 0.3], series.Select(point => Math.Round(point.Leaves.Damage!.Value, 12)));
    }

    [Fact]
    public void A_single_leaf_is_as_sure_as_its_own_reading()
    {
        LeafFigures figures = LeafFigures.Of([Some.Leaf(0.10, error: 0.03)], Defaults, new Random(1));

        Assert.Equal(0.07, figures.DamageInterval!.Value.Low, 1e-12);
        Assert.Equal(0.13, figures.DamageInterval!.Value.High, 1e-12);
    }

    [Fact]
    public void Equal_leaves_are_no_surer_than_their_own_readings()
    {
        Interval interval = LeafFigures.Of(Enumerable.Range(0, 12).Select(_ => Some.Leaf(0.1, error: 0.03)), Defaults, new Random(1)).DamageInterval!.Value;

        Assert.Equal(0.06, interval.Width, 1e-9);
    }

    [Fact]
    public void Unlike_leaves_widen_the_interval_and_more_of_them_narrow_it()
    {
        double few = LeafFigures.Of(Some.Leaves(Some.June, 0.0, 0.1, 0.4), Defaults, new Random(1)).DamageInterval!.Value.Width;
        double many = LeafFigures.Of(Enumerable.Repeat(new[] { 0.0, 0.1, 0.4 }, 8).SelectMany(some => Some.Leaves(Some.June, some)), Defaults, new Random(1)).DamageInterval!.Value.Width;

        Assert.True(few > 2 * many, $"{few} with 3 leaves, {many} with 24");
        Assert.InRange(LeafFigures.Of(Some.Leaves(Some.June, 0.0, 0.0, 0.9), Defaults, new Random(1)).DamageInterval!.Value.Low, 0, 0);
    }

    // Independent of our code: by definition nine in ten 90 % intervals hold the plant's true mean, however few the leaves.
    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void Even_for_very_few_leaves_nine_in_ten_intervals_hold_the_plants_mean(int count)
    {
        var random = new Random(20260705);
        int held = 0;
        const int Trials = 1000;
        for (int trial = 0; trial < Trials; trial++)
        {
            double[] damages = [.. Enumerable.Range(0, count).Select(_ => MathNet.Numerics.Distributions.Normal.Sample(random, 0.5, 0.05))];
            IEnumerable<LeafOnRecord> leaves = damages.Select(damage => Some.Leaf(damage, error: 0));
            held += LeafFigures.Of(leaves, Defaults with { Resamples = 200 }, random).DamageInterval!.Value.Holds(0.5) ? 1 : 0;
        }

        Assert.InRange(held / (double)Trials, 0.87, 0.94);
    }

    [Fact]
    public void Affected_leaves_are_counted_from_the_threshold_on_with_Wilsons_interval()
    {
        LeafFigures figures = LeafFigures.Of(Some.Leaves(Some.June, [.. Enumerable.Repeat(0.049, 20)]), Defaults with { Level = 0.95 }, new Random(1));

        // "0 of 20 leaves" still allows up to 16 %: Newcombe 1998, Table I.
        Assert.Equal((0, 0.0), (figures.AffectedCount, figures.AffectedShare));
        Assert.Equal(0.1611, figures.AffectedInterval!.Value.High, 5e-5);
        Assert.Equal(20, LeafFigures.Of(Some.Leaves(Some.June, [.. Enumerable.Repeat(0.05, 20)]), Defaults, new Random(1)).AffectedCount);
    }

    [Fact]
    public void Leaves_that_cannot_be_judged_are_left_out_and_counted()
    {
        LeafOnRecord inGlare = Some.Leaf(0.9) with { Shares = new LeafShares(0, 0.4, 0, 0, 0, 0.6) };
        LeafOnRecord cutOff = Some.Leaf(0.9) with { Flags = ["noScale", "damagedFile"] };

        LeafFigures figures = LeafFigures.Of([Some.Leaf(0.1), inGlare, cutOff], Defaults, new Random(1));

        Assert.Equal((1, 2, 1), (figures.LeafCount, figures.LeafCountLeftOut, figures.PhotoCount));
        Assert.Equal(0.1, figures.Damage!.Value, 1e-12);
    }

    [Fact]
    public void No_leaf_at_all_gives_no_figures_and_no_error()
    {
        LeafFigures figures = LeafFigures.Of([], Defaults, new Random(1));

        Assert.Equal((0, null, null, null, null), (figures.LeafCount, figures.Damage, figures.Shares, figures.DamageInterval, figures.AffectedShare));
        Assert.Empty(Series.OfPlant([], null, new Random(1)));
    }

    [Fact]
    public void The_mean_by_area_is_given_only_where_every_leaf_has_a_size()
    {
        LeafOnRecord small = Some.Leaf(0.4) with { AreaMm2 = 100 };
        LeafOnRecord large = Some.Leaf(0.1) with { AreaMm2 = 300 };

        LeafFigures sized = LeafFigures.Of([small, large], Defaults, new Random(1));

        Assert.Equal(0.25, sized.Shares!.Stippled, 1e-12);
        Assert.Equal(0.175, sized.SharesByArea!.Stippled, 1e-12);
        Assert.Null(LeafFigures.Of([small, Some.Leaf(0.1)], Defaults, new Random(1)).SharesByArea);
    }

    [Fact]
    public void The_same_seed_gives_the_same_series()
    {
        LeafOnRecord[] leaves = [.. Some.Leaves(Some.June, 0.1, 0.5, 0.2), .. Some.Leaves(Some.July, 0.4, 0.1)];

        Assert.Equal(Series.OfPlant(leaves, null, new Random(5)), Series.OfPlant(leaves, null, new Random(5)));
    }
}
