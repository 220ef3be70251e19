using CsCheck;
using LeafScan.Records;

namespace LeafScan.Trends.Tests;

public sealed class MonthComparisonTests
{
    private static readonly Month From = new(2026, 6);
    private static readonly Month To = new(2026, 7);

    private static MonthComparison Compare(double[] june, double[] july, TrendOptions? options = null)
        => MonthComparison.Of([.. Some.Leaves(Some.June, june), .. Some.Leaves(Some.July, july)], From, To, options, () => new Random(1));

    [Fact]
    public void A_clear_rise_is_worse_and_says_that_the_mites_may_be_gone()
    {
        MonthComparison comparison = Compare([0.05, 0.07, 0.06, 0.08, 0.06], [0.22, 0.30, 0.25, 0.28, 0.26]);

        Assert.Equal(ChangeWord.Worse, comparison.Word);
        Assert.Equal(0.198, comparison.Difference!.Value, 1e-9);
        Assert.StartsWith("Mean damage went from 6.4 % (5 leaves) to 26.2 % (5 leaves): +19.8 points, and with 90 % trust between +", comparison.Because, StringComparison.Ordinal);
        Assert.Contains("Tap before treating", comparison.Caution, StringComparison.Ordinal);
    }

    [Fact]
    public void A_clear_fall_is_better_and_never_called_healing()
    {
        MonthComparison comparison = Compare([0.22, 0.30, 0.25, 0.28, 0.26], [0.05, 0.07, 0.06, 0.08, 0.06]);

        Assert.Equal(ChangeWord.Better, comparison.Word);
        Assert.Contains("Damage does not heal", comparison.Caution, StringComparison.Ordinal);
        Assert.Contains("leaf drop", comparison.Caution, StringComparison.Ordinal);
    }

    [Fact]
    public void Few_leaves_give_no_answer_however_far_apart_they_are()
    {
        MonthComparison comparison = Compare([0.05, 0.06, 0.05, 0.06, 0.05], [0.9, 0.9, 0.9, 0.9]);

        Assert.Equal(ChangeWord.CannotTell, comparison.Word);
        Assert.Equal("2026-07 has only 4 leaves that count; a comparison takes at least 5 in each month.", comparison.Because);
        Assert.NotNull(comparison.DifferenceInterval);
    }

    [Fact]
    public void A_month_without_a_leaf_gives_no_answer_and_no_difference()
    {
        MonthComparison comparison = Compare([0.05, 0.06, 0.05, 0.06, 0.05], []);

        Assert.Equal((ChangeWord.CannotTell, null, null, null), (comparison.Word, comparison.Difference, comparison.DifferenceInterval, comparison.Welch));
        Assert.StartsWith("2026-07 has no leaf that counts", comparison.Because, StringComparison.Ordinal);
    }

    [Fact]
    public void Leaves_that_vary_much_give_no_answer()
    {
        MonthComparison comparison = Compare([0.0, 0.4, 0.1, 0.3, 0.05], [0.3, 0.0, 0.5, 0.1, 0.2]);

        Assert.Equal(ChangeWord.CannotTell, comparison.Word);
        Assert.EndsWith("It may have risen or fallen; more leaves a walk narrow this down.", comparison.Because, StringComparison.Ordinal);
    }

    [Fact]
    public void Leaves_that_are_alike_and_surely_measured_are_the_same()
    {
        double[] damages = [.. Enumerable.Range(0, 20).Select(i => 0.10 + (0.001 * (i % 5)))];
        MonthComparison comparison = MonthComparison.Of(
            [.. damages.Select(damage => Some.Leaf(damage, Some.June, 0.005)), .. damages.Select(damage => Some.Leaf(damage, Some.July, 0.005))], From, To, null, () => new Random(1));

        Assert.Equal(ChangeWord.Same, comparison.Word);
    }

    [Fact]
    public void A_difference_within_the_error_of_the_readings_is_no_answer()
    {
        MonthComparison comparison = Compare([.. Enumerable.Repeat(0.10, 20)], [.. Enumerable.Repeat(0.12, 20)]);

        // Two points of error in each month, taken as independent: 2 times the square root of 2 points.
        Assert.Equal(0.02 - Math.Sqrt(0.0008), comparison.DifferenceInterval!.Value.Low, 1e-9);
        Assert.Equal(ChangeWord.CannotTell, comparison.Word);
    }

    [Fact]
    public void Other_months_are_passed_over_and_all_walks_of_a_month_count()
    {
        MonthComparison comparison = MonthComparison.Of(
            [.. Some.Leaves(Some.June, 0.1), .. Some.Leaves(Some.June.AddDays(20), 0.3), .. Some.Leaves(Some.June.AddYears(1), 0.9), .. Some.Leaves(Some.July, 0.2)],
            From, To, null, () => new Random(1));

        Assert.Equal((2, 1), (comparison.Earlier.LeafCount, comparison.Later.LeafCount));
        Assert.Equal(0, comparison.Difference!.Value, 1e-12);
    }

    // Two doors that gave two ranges for one walk were found by comparing the demo's table of months with its series.
    [Fact]
    public void A_month_has_the_range_that_it_has_alone()
    {
        LeafOnRecord[] july = [.. Some.Leaves(Some.July, [0.02, 0.05, 0.11, 0.19, 0.24, 0.31])];
        MonthComparison comparison = MonthComparison.Of([.. Some.Leaves(Some.June, [0.01, 0.02, 0.05, 0.09, 0.03, 0.06]), .. july], From, To, null, SteadyChance.New);
        Assert.Equal(SteadyChance.SeriesOf(july).Single().Leaves.DamageInterval, comparison.Later.DamageInterval);
    }

    // Simulated months without any change, leaves of 10 % damage give or take 6 points: a word for a change would be wrong.
    [Fact]
    public void Where_nothing_changed_a_change_is_claimed_at_most_once_in_ten_times()
    {
        var random = new Random(20260704);
        int claimed = 0;
        const int Trials = 400;
        var options = new TrendOptions { Resamples = 400 };
        for (int trial = 0; trial < Trials; trial++)
        {
            double[] Draw() => [.. Enumerable.Range(0, 8).Select(_ => Math.Clamp(MathNet.Numerics.Distributions.Normal.Sample(random, 0.10, 0.06), 0, 1))];
            claimed += Compare(Draw(), Draw(), options).Word is ChangeWord.Better or ChangeWord.Worse ? 1 : 0;
        }

        Assert.InRange(claimed / (double)Trials, 0, 0.13);
    }

    [Fact]
    public void A_month_is_compared_with_a_later_one_only()
        => Assert.Throws<ArgumentException>(() => MonthComparison.Of([], To, From, null, () => new Random(1)));

    [Fact]
    public void Options_out_of_range_are_all_named_at_once()
    {
        ArgumentException fault = Assert.Throws<ArgumentException>(() => Compare([], [], new TrendOptions { Level = 1.5, LeavesLeast = 1 }));

        Assert.Contains("Level", fault.Message, StringComparison.Ordinal);
        Assert.Contains("LeavesLeast", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Months_are_read_as_they_are_written()
        => Gen.Select(Gen.Int[1, 9999], Gen.Int[1, 12]).Sample((year, number) => Month.Parse(new Month(year, number).ToString()) == new Month(year, number));

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("2026-13")]
    [InlineData("2026-6")]
    [InlineData("2026/06")]
    [InlineData("2026-06-01")]
    public void Texts_that_are_no_months_are_not_read(string? text) => Assert.Null(Month.Parse(text));

    [Fact]
    public void A_month_ends_on_its_last_day()
        => Assert.Equal((new DateOnly(2028, 2, 1), new DateOnly(2028, 2, 29)), (new Month(2028, 2).FirstDay, new Month(2028, 2).LastDay));
}
