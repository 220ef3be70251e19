using LeafScan.Trends.Verdicts;

namespace LeafScan.Trends.Tests.Verdicts;

/// <summary>Which formula of efficacy a verdict gives, and why not the others.</summary>
public sealed class CareEfficacyTests
{
    // 40, 60, 50, 5: a public test file prints 93.33 for Henderson-Tilton (see EfficacyTests). Abbott: 1 - 5/60, after the formula of 1925.
    [Fact]
    public void Counts_before_and_since_on_both_sides_that_began_alike_give_all_three()
    {
        VerdictFigures figures = Judge([(0, 50), (14, 5)], [(0, 40), (14, 60)]);

        Assert.Equal(0.93333333333, figures.Efficacy!.Value, 1e-8);
        Assert.Equal(0.93333333333, figures.EfficacyBySunShepard!.Value, 1e-8);
        Assert.Equal(1 - (5 / 60.0), figures.EfficacyByAbbott!.Value, 1e-12);
        Assert.Contains("Abbott applies too", figures.EfficacyBecause!, StringComparison.Ordinal);
    }

    [Fact]
    public void Plants_that_did_not_begin_alike_get_no_Abbott()
    {
        VerdictFigures figures = Judge([(0, 50), (14, 5)], [(0, 20), (14, 60)]);

        Assert.NotNull(figures.Efficacy);
        Assert.Null(figures.EfficacyByAbbott);
        Assert.Contains("for plants that began alike, and live mites a tap before were 50.0 here and 20.0 on the untreated plants", figures.EfficacyBecause!, StringComparison.Ordinal);
    }

    // 100 and 20: as in EfficacyTests, 80 %.
    [Fact]
    public void Without_counts_before_only_Abbott_is_left_and_says_what_it_takes_for_granted()
    {
        VerdictFigures figures = Judge([(14, 20)], [(14, 100)]);

        Assert.Null(figures.Efficacy);
        Assert.Null(figures.EfficacyBySunShepard);
        Assert.Equal(0.8, figures.EfficacyByAbbott!.Value, 1e-12);
        Assert.Contains("either side", figures.EfficacyBecause!, StringComparison.Ordinal);
        Assert.Contains("only if the plants began alike, which nobody counted", figures.EfficacyBecause!, StringComparison.Ordinal);
        Assert.Contains("this plant", Judge([(14, 20)], [(0, 10), (14, 100)]).EfficacyBecause!, StringComparison.Ordinal);
    }

    [Fact]
    public void A_few_mites_on_the_untreated_plants_say_nothing()
    {
        VerdictFigures figures = Judge([(14, 0)], [(14, 2)]);

        Assert.Null(figures.EfficacyByAbbott);
        Assert.Contains("fewer than 10 live mites", figures.EfficacyBecause!, StringComparison.Ordinal);
        Assert.Null(Judge([(0, 20), (14, 0)], [(0, 20), (14, 2)]).EfficacyByAbbott);
    }

    [Fact]
    public void Taps_of_more_strikes_are_brought_to_the_same_number_before_one_side_is_laid_beside_the_other()
    {
        PlantHistory plant = Plant("B1", [(14, 20)]) with { Care = SomePlant.Rinses(0) };
        PlantHistory check = Plant("C1", []) with { Taps = [.. SomePlant.Taps((14, 200)).Select(tap => tap with { Strikes = 20 })] };

        Assert.Equal(0.8, CareVerdict.Judge(plant with { CheckPlants = [check] }).Figures.EfficacyByAbbott!.Value, 1e-12);
    }

    [Fact]
    public void Damage_never_enters_and_a_nought_where_it_divides_is_a_reason()
    {
        PlantHistory plant = SomePlant.Rinsed(0.001) with { CheckPlants = [SomePlant.Rinsed(0.04) with { Name = "C1", Care = [] }] };
        VerdictFigures leaves = CareVerdict.Judge(plant).Figures;
        Assert.True(leaves is { Efficacy: null, EfficacyByAbbott: null });
        Assert.Contains("no dry tap since", leaves.EfficacyBecause!, StringComparison.Ordinal);
        Assert.Contains("no untreated plant", CareVerdict.Judge(SomePlant.Rinsed(0.001)).Figures.EfficacyBecause!, StringComparison.Ordinal);
        VerdictFigures gone = Judge([(0, 20), (14, 0)], [(0, 20), (14, 0)]);
        Assert.True(gone is { Efficacy: null, EfficacyByAbbott: null });
        Assert.Contains("gone from the untreated plants too", gone.EfficacyBecause!, StringComparison.Ordinal);
    }

    [Fact]
    public void The_direction_stands_beside_the_word_and_does_not_make_it()
    {
        Verdict verdict = CareVerdict.Judge(SomePlant.Rinsed(0.001));
        Assert.Equal((VerdictWord.Working, TrendDirection.Rising), (verdict.Word, verdict.Trend!.Direction));
        Assert.DoesNotContain(verdict.Because, sentence => sentence.Contains("By chance alone", StringComparison.Ordinal));
    }

    private static VerdictFigures Judge((int, int)[] plant, (int, int)[] check)
        => CareVerdict.Judge(Plant("B1", plant) with { Care = SomePlant.Rinses(0), CheckPlants = [Plant("C1", check)] }).Figures;

    private static PlantHistory Plant(string name, (int, int)[] taps) => new() { Name = name, Calendar = MiteCalendar.Warm, Taps = SomePlant.Taps(taps) };
}
