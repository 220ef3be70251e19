using LeafScan.Taps;
using LeafScan.Training.Bench.Taps;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.TapSheets;

namespace LeafScan.Training.Tests.TapSheets;

public class TapCheckTests
{
    [Fact]
    public void A_rendered_pair_is_read_and_its_walkers_are_found()
    {
        TapScore score = TapRun.One(7, Difficulty.Easy, 900, new TapWish(), withScale: true);
        Assert.Null(score.Refused);
        Assert.True(score.Walkers > 0);
        Assert.InRange(score.Found, (int)Math.Ceiling(0.8 * score.Walkers), score.Walkers);
        Assert.Equal(0, score.False);
        Assert.InRange(score.AlignmentErrorPx, 0, 0.5);
    }

    [Fact]
    public void Missed_and_invented_walkers_cost_what_the_formula_says()
    {
        // Worked by hand: 8 right, 2 invented, 2 missed: F1 = 16 / (16 + 2 + 2).
        TapScore score = new(10, 8, 2, 202, 10, 9, 12, 0.1, 0, 0, null, []);
        TapTotals totals = new([score]);
        Assert.Equal(0.8, totals.F1, 6);
        Assert.Equal(0.8, totals.Recall, 6);
        Assert.Equal(101, totals.SpecksPerFalse, 6);
        Assert.Equal(1, totals.Coverage);
        Assert.Equal(0.8, new TapTotals([score, new TapScore(0, 0, 0, 0, 0, 0, 0, double.NaN, 0, 0, "refused", [])]).F1, 6);
    }

    [Fact]
    public void A_reading_that_sees_nothing_scores_every_walker_as_missed()
    {
        TapSpec spec = TapChooser.Choose(7, Difficulty.Easy, 900);
        TapReading nothing = new() { Crawling = 0, CrawlingLow = 0, CrawlingHigh = 0, Debris = 0, PossiblePredators = 0, SeenOnce = 0, Alignments = [[1, 0, 0, 0, 1, 0, 0, 0, 1]] };
        TapScore score = TapScore.Of(spec, new TapOutcome(nothing, null));
        Assert.Equal(0, score.Found);
        Assert.Equal(score.Walkers, score.Missed.Count);
        Assert.False(score.Covered);
    }

    [Theory]
    [InlineData(TapTrouble.Sunlit)]
    [InlineData(TapTrouble.Shaken)]
    [InlineData(TapTrouble.Tilted)]
    [InlineData(TapTrouble.HalfOut)]
    public void A_trouble_changes_the_photos_and_not_what_lies_on_the_sheet(TapTrouble trouble)
    {
        TapSpec plain = TapChooser.Choose(9, Difficulty.Easy, 500);
        TapSpec troubled = TapChooser.Choose(9, Difficulty.Easy, 500, new TapWish { Trouble = trouble });
        Assert.Equal(plain.Things, troubled.Things);
        Assert.False(TapRenderer.Render(plain).Second.Span.SequenceEqual(TapRenderer.Render(troubled).Second.Span));
    }

    [Fact]
    public void A_sheet_on_which_nothing_lives_has_dirt_only()
    {
        TapSpec spec = TapChooser.Choose(9, Difficulty.Hard, 500, new TapWish { NoneAlive = true, MiteLengthPx = 3 });
        Assert.DoesNotContain(spec.Things, thing => thing.Kind is TapKind.Mite or TapKind.Predator);
        Assert.Equal(7.5, spec.PixelsPerMm, 6);
    }
}
