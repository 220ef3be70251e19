using LeafScan.Records;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Trends.Tests.Verdicts;

public sealed class CareVerdictTests
{
    private static readonly DateOnly LateSummer = new(2026, 8, 5);

    [Fact]
    public void New_damage_that_stops_on_the_same_leaves_in_early_summer_means_working()
    {
        Verdict verdict = CareVerdict.Judge(SomePlant.Rinsed(0.001));
        Assert.Equal(VerdictWord.Working, verdict.Word);
        Assert.Equal(0.0288, verdict.Figures.NewDamageBefore!.Value, 4);
        Assert.Equal(10, verdict.Figures.SameLeafCount);
    }

    [Fact]
    public void The_same_in_late_summer_cannot_be_told_from_a_crash()
    {
        Verdict verdict = CareVerdict.Judge(SomePlant.Rinsed(0.001, LateSummer));
        Assert.Equal(VerdictWord.CannotTell, verdict.Word);
        Assert.Contains(verdict.Rivals, rival => rival.Kind == RivalKind.QuietSeason);
        Assert.Contains("untreated", verdict.Next, StringComparison.Ordinal);
    }

    [Fact]
    public void Untreated_plants_that_go_on_rule_the_crash_out()
    {
        PlantHistory plant = SomePlant.Rinsed(0.001) with { Taps = SomePlant.Taps((0, 20), (10, 1), (14, 1), (21, 1)), CheckPlants = [Untreated("C1"), Untreated("C2")] };
        Verdict verdict = CareVerdict.Judge(SomePlant.Moved(plant, LateSummer));
        Assert.Equal(VerdictWord.Working, verdict.Word);
        Assert.True(verdict.Figures.Efficacy > 0.9, $"{verdict.Figures.Efficacy}");
        Assert.True(verdict.Figures.EfficacyInterval!.Value.Holds(verdict.Figures.Efficacy!.Value));
    }

    [Fact]
    public void Untreated_plants_that_crash_too_leave_no_word_for_the_care()
    {
        PlantHistory crashed = Untreated("C1") with { Taps = SomePlant.Taps((0, 20), (10, 1), (14, 1), (21, 1)), Visits = SomePlant.Rinsed(0.001).Visits };
        PlantHistory plant = SomePlant.Rinsed(0.001) with { Taps = SomePlant.Taps((0, 20), (10, 1), (14, 1), (21, 1)), CheckPlants = [crashed, crashed with { Name = "C2" }] };
        Verdict verdict = CareVerdict.Judge(SomePlant.Moved(plant, LateSummer));
        Assert.NotEqual(VerdictWord.Working, verdict.Word);
        Assert.Contains(verdict.Rivals, rival => rival.Kind == RivalKind.ChecksFellToo);
    }

    [Fact]
    public void Three_branches_over_one_sheet_say_what_three_taps_say()
    {
        (int, int)[] days = [(0, 20), (10, 1), (14, 1), (21, 1)];
        PlantHistory one = SomePlant.Rinsed(0.001) with { Taps = SomePlant.Taps(days) };
        PlantHistory together = one with { Taps = [.. days.Select(day => new HistoryTap(SomePlant.Care.AddDays(day.Item1), 3 * day.Item2, 10) { Branches = 3 })] };
        Verdict expected = CareVerdict.Judge(one), verdict = CareVerdict.Judge(together);
        Assert.Equal((20, 1), (expected.Figures.MitesBefore, expected.Figures.MitesSince));
        Assert.Equivalent(expected, verdict, strict: true);
    }

    [Fact]
    public void New_damage_that_comes_faster_than_before_means_not_working()
    {
        Verdict verdict = CareVerdict.Judge(SomePlant.Rinsed(0.08));
        Assert.Equal(VerdictWord.NotWorking, verdict.Word);
        Assert.Contains(verdict.Because, sentence => sentence.Contains("points of damage a week", StringComparison.Ordinal));
    }

    [Fact]
    public void More_mites_on_every_tap_mean_not_working()
    {
        Verdict verdict = CareVerdict.Judge(new PlantHistory
        {
            Name = "B1",
            Calendar = MiteCalendar.Warm,
            Taps = SomePlant.Taps((-7, 4), (0, 8), (8, 60), (14, 90), (21, 120)),
            Care = SomePlant.Rinses(0, 3),
        });
        Assert.Equal(VerdictWord.NotWorking, verdict.Word);
    }

    [Fact]
    public void A_falling_average_of_other_leaves_is_no_success()
    {
        Verdict verdict = CareVerdict.Judge(SomePlant.Rinsed(0) with
        {
            Visits = SomePlant.Visits(false, (-14, 0.2), (-7, 0.22), (0, 0.24), (7, 0.1), (14, 0.06), (21, 0.03)),
        });
        Assert.Equal(VerdictWord.CannotTell, verdict.Word);
        Assert.Contains(verdict.Rivals, rival => rival.Kind == RivalKind.NewLeaves);
        Assert.Null(verdict.Figures.Efficacy);
    }

    [Fact]
    public void Days_after_a_rinse_it_is_too_early()
    {
        Verdict verdict = CareVerdict.Judge(SomePlant.Rinsed(0) with { Visits = SomePlant.Visits((-14, 0.03), (-7, 0.06), (0, 0.09), (4, 0.09)), Care = SomePlant.Rinses(0) });
        Assert.Equal(VerdictWord.TooEarly, verdict.Word);
        Assert.Contains("2026-06-26", verdict.Next, StringComparison.Ordinal);
    }

    [Fact]
    public void No_visit_since_is_too_early()
        => Assert.Equal(VerdictWord.TooEarly, CareVerdict.Judge(SomePlant.Rinsed(0) with { Visits = SomePlant.Visits((-7, 0.06), (0, 0.09)) }).Word);

    [Theory]
    [InlineData(0.001)]
    [InlineData(0.2)]
    public void Three_visits_never_make_a_trend(double aWeekSince)
    {
        Verdict verdict = CareVerdict.Judge(SomePlant.Rinsed(0) with { Visits = SomePlant.Visits((-7, 0.03), (0, 0.09), (14, 0.09 + (2 * aWeekSince))) });
        Assert.Contains(verdict.Word, (VerdictWord[])[VerdictWord.TooEarly, VerdictWord.CannotTell]);
    }

    [Fact]
    public void Taps_on_a_wet_plant_do_not_count()
    {
        PlantHistory plant = SomePlant.Rinsed(0) with
        {
            Visits = [],
            Taps = [.. SomePlant.Taps((-7, 20), (0, 20)), .. SomePlant.Taps((8, 0), (14, 0), (21, 0)).Select(tap => tap with { HoursSinceRinse = 3 })],
        };
        Verdict wet = CareVerdict.Judge(plant);
        Assert.NotEqual(VerdictWord.Working, wet.Word);
        Assert.Contains(wet.Rivals, rival => rival.Kind == RivalKind.WetTaps);

        Verdict dry = CareVerdict.Judge(plant with { Taps = [.. plant.Taps.Select(tap => tap with { HoursSinceRinse = 48 })] });
        Assert.Equal(VerdictWord.Working, dry.Word);
    }

    [Fact]
    public void Cooler_weather_is_another_explanation()
    {
        IEnumerable<HistoryWeather> weather = Enumerable.Range(-21, 43).Select(day => new HistoryWeather(SomePlant.Care.AddDays(day), day <= 0 ? 22 : 9, day <= 0 ? 32 : 19));
        Verdict verdict = CareVerdict.Judge(SomePlant.Rinsed(0.001) with { Weather = [.. weather] });
        Assert.Equal(VerdictWord.CannotTell, verdict.Word);
        Assert.Contains(verdict.Rivals, rival => rival.Kind == RivalKind.CoolerWeather);
    }

    [Fact]
    public void Predators_on_the_sheet_are_another_explanation()
    {
        PlantHistory plant = SomePlant.Rinsed(0.001) with { Taps = [.. SomePlant.Taps((0, 20), (10, 2), (14, 2), (21, 2)).Select(tap => tap with { Predators = 1 })] };
        Verdict verdict = CareVerdict.Judge(plant);
        Assert.Equal(VerdictWord.CannotTell, verdict.Word);
        Assert.Contains(verdict.Rivals, rival => rival.Kind == RivalKind.Predators);
        Assert.Equal(VerdictWord.Working, CareVerdict.Judge(plant with { Taps = [.. plant.Taps.Select(tap => tap with { Predators = 0 })] }).Word);
    }

    [Fact]
    public void An_option_out_of_range_is_refused()
        => Assert.Throws<ArgumentException>(() => CareVerdict.Judge(SomePlant.Rinsed(0), new VerdictOptions { Risk = 0.9 }));

    [Fact]
    public void Readings_that_fall_on_the_same_leaves_are_blamed_on_the_photos()
        => Assert.Contains(CareVerdict.Judge(SomePlant.Rinsed(-0.02)).Rivals, rival => rival.Kind == RivalKind.OtherPhotos);

    [Fact]
    public void Dropped_leaves_are_named()
    {
        PlantHistory plant = SomePlant.Rinsed(0.001);
        Verdict verdict = CareVerdict.Judge(plant with { Visits = [.. plant.Visits.SkipLast(1), plant.Visits[^1] with { Leaves = [.. plant.Visits[^1].Leaves.Take(6)] }] });
        Assert.Contains(verdict.Rivals, rival => rival.Kind == RivalKind.LeafDrop && rival.Sentence.StartsWith("4 tagged", StringComparison.Ordinal));
    }

    [Fact]
    public void The_order_of_what_was_recorded_does_not_matter()
    {
        PlantHistory plant = SomePlant.Rinsed(0.001) with { Taps = SomePlant.Taps((0, 20), (10, 1), (21, 1)) };
        Verdict back = CareVerdict.Judge(plant with { Visits = [.. plant.Visits.Reverse()], Taps = [.. plant.Taps.Reverse()], Care = [.. plant.Care.Reverse()] });
        Assert.Equal(CareVerdict.Judge(plant).Because, back.Because);
    }

    [Fact]
    public void Henderson_and_Tilton_stands_for_what_the_care_took()
    {
        // Worked example: Cb 40, Ca 60, Tb 50, Ta 5 give 93.3333 % (computed from the formula of Henderson and Tilton 1955).
        PlantHistory plant = SomePlant.Rinsed(0) with
        {
            Visits = [],
            Taps = SomePlant.Taps((0, 50), (10, 5)),
            CheckPlants = [new PlantHistory { Name = "C1", Taps = SomePlant.Taps((0, 40), (10, 60)) }],
        };
        Assert.Equal(0.933333, CareVerdict.Judge(plant).Figures.Efficacy!.Value, 5);
        Assert.Null(CareVerdict.Judge(plant with { CheckPlants = [new PlantHistory { Name = "C1", Taps = SomePlant.Taps((0, 40), (10, 0)) }] }).Figures.Efficacy);
    }

    [Fact]
    public void Left_alone_on_purpose_is_no_care()
        => Assert.Null(CareVerdict.Judge(SomePlant.Rinsed(0) with { Care = [new HistoryCare(SomePlant.Care, CareKind.Nothing)] }).CareSince);

    private static PlantHistory Untreated(string name) => new()
    {
        Name = name,
        Calendar = MiteCalendar.Warm,
        Visits = SomePlant.Rinsed(0.04).Visits,
        Taps = SomePlant.Taps((0, 20), (10, 30), (14, 40), (21, 40)),
    };
}
