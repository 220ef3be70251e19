using LeafScan.Records;
using LeafScan.Trends.NextSteps;
using LeafScan.Trends.Thresholds;
using LeafScan.Trends.Verdicts;
using LeafScan.Trends.Weather;

namespace LeafScan.Trends.Tests.NextSteps;

public sealed class NextAdviceTests
{
    private static readonly DateOnly Day = new(2026, 7, 10);
    private static readonly PlantSituation Hot = new()
    {
        Today = Day,
        Mite = MiteCalendar.Warm,
        MeanC = 30,
        Damage = 0.1,
        LastLeavesOn = Day,
        IsDamageRising = true,
        MitesPerTap = Own(ThresholdMeasure.MitesPerTap, 10),
        PredatorsPerMite = Own(ThresholdMeasure.PredatorsPerMite, 0.1),
    };

    private static Threshold Own(ThresholdMeasure measure, double value) => new(measure, value, null, null, "garden", "test", true);

    // 146.48/(T - 12.5): Egyptian Acad. J. Biol. Sci. B 12844; 8.4 days at 30 °C, 11.7 at 25 (computed from it).
    [Fact]
    public void The_recheck_comes_within_a_generation()
    {
        Assert.Equal(Day.AddDays(8), NextAdvice.For(Hot).RecheckOn);
        Assert.Equal(Day.AddDays(11), NextAdvice.For(Hot with { MeanC = 25 }).RecheckOn);
        Assert.Equal(Day.AddDays(7), NextAdvice.For(Hot with { MeanC = null }).RecheckOn);
        Assert.Null(Development.Of(MiteCalendar.Warm, 9));
        Assert.Null(Development.Of(MiteCalendar.Warm, 36));
    }

    [Fact]
    public void Damage_without_a_tap_asks_for_a_tap_and_never_for_a_treatment()
    {
        NextAdvice advice = NextAdvice.For(Hot);

        Assert.StartsWith("Tap before treating", advice.Lines[0].Words);
        Assert.DoesNotContain(advice.Lines, line => line.Words.Contains("rinse", StringComparison.Ordinal));
    }

    [Fact]
    public void Clean_new_growth_gets_a_rest()
        => Assert.True(NextAdvice.For(Hot with { IsDamageRising = false, IsNewGrowthClean = true }).IsRest);

    [Fact]
    public void Many_mites_get_the_lightest_step_that_was_not_tried()
    {
        PlantSituation many = Hot with { Tap = new TapSeen(Day, [30, 25, 40]) };
        CareDone[] rinses = [.. Enumerable.Range(1, 3).Select(day => new CareDone(Day.AddDays(-3 * day), CareKind.Rinse))];
        CareDone[] all = [.. rinses, new(Day.AddDays(-8), CareKind.Soap), new(Day.AddDays(-7), CareKind.Oil), new(Day.AddDays(-6), CareKind.Predators)];

        Assert.Contains("rinse", NextAdvice.For(many).Lines[0].Words, StringComparison.Ordinal);
        Assert.Contains("soap", NextAdvice.For(many with { Care = rinses }).Lines[0].Words, StringComparison.Ordinal);
        Assert.Contains("miticide", NextAdvice.For(many with { Care = all }).Lines[0].Words, StringComparison.Ordinal);
    }

    [Fact]
    public void Predators_wet_plants_and_few_mites_hold_treatment_back()
    {
        Assert.Contains("predators", NextAdvice.For(Hot with { Tap = new TapSeen(Day, [30, 25, 40], Predators: 10) }).Lines[0].Words, StringComparison.Ordinal);
        Assert.Contains("dry", NextAdvice.For(Hot with { Tap = new TapSeen(Day, [30, 25, 40], HoursSinceWet: 3) }).Lines[0].Words, StringComparison.Ordinal);
        Assert.StartsWith("Nothing to do", NextAdvice.For(Hot with { Tap = new TapSeen(Day, [1, 0, 1]) }).Lines[0].Words);
        Assert.StartsWith("Tap more", NextAdvice.For(Hot with { Tap = new TapSeen(Day, [9, 11, 10]) }).Lines[0].Words);
    }

    [Fact]
    public void A_cool_mite_in_July_sits_as_eggs_and_a_warm_one_does_not()
    {
        Assert.Contains(NextAdvice.For(Hot with { Mite = MiteCalendar.Cool }).Lines, line => line.Words.Contains("eggs", StringComparison.Ordinal));
        Assert.DoesNotContain(NextAdvice.For(Hot).Lines, line => line.Words.Contains("eggs", StringComparison.Ordinal));
    }

    [Fact]
    public void Cautions_come_from_plant_weather_and_log()
    {
        string all = string.Join(" ", NextAdvice.For(Hot with
        {
            HighestC = 34,
            Species = "Picea pungens 'Hoopsii'",
            Care = [new(Day.AddDays(-30), CareKind.Miticide, "Imidacloprid drench")],
        }).Cautions.Select(line => line.Words));

        Assert.Contains("label", all, StringComparison.Ordinal);
        Assert.Contains("No oil now", all, StringComparison.Ordinal);
        Assert.Contains("blue spruce", all, StringComparison.Ordinal);
        Assert.Contains("imidacloprid", all, StringComparison.Ordinal);
        Assert.DoesNotContain("imidacloprid", string.Join(" ", NextAdvice.For(Hot).Cautions.Select(line => line.Words)), StringComparison.Ordinal);
    }

    // UMass and Utah State: 4 to 11 days for the honeylocust mite; Penn State and Oregon State: 2 to 3 weeks for the spruce mite; none found for the southern red mite.
    [Fact]
    public void The_species_tells_which_mite_is_reckoned_with()
    {
        Assert.Equal(4, Development.Of(MiteCalendar.Warm, 30, "Gleditsia triacanthos")!.DaysLeast);
        Assert.Equal(14, Development.Of(MiteCalendar.Cool, null, "Picea glauca")!.DaysLeast);
        Assert.Null(Development.Of(MiteCalendar.Cool, 18, "Ilex crenata"));
    }

    [Fact]
    public void Without_a_published_threshold_mites_count_by_what_they_do()
    {
        PlantSituation euonymus = Hot with { Species = "Euonymus alatus", MitesPerTap = null, IsDamageRising = null, IsNewGrowthClean = null };

        Assert.StartsWith("Tap again before you treat", NextAdvice.For(euonymus with { Tap = new TapSeen(Day, [4, 6, 5]) }).Lines[0].Words);
        Assert.Contains("rinse", NextAdvice.For(euonymus with { Tap = new TapSeen(Day, [4, 6, 5]), IsDamageRising = true }).Lines[0].Words, StringComparison.Ordinal);
        Assert.Contains("rinse", NextAdvice.For(euonymus with { Tap = new TapSeen(Day, [14, 16, 15]) { MeanBefore = 3 } }).Lines[0].Words, StringComparison.Ordinal);
        Assert.True(NextAdvice.For(euonymus with { Tap = new TapSeen(Day, [0, 0, 0]) }).IsRest);
        Assert.Contains("No threshold per tap is published", NextAdvice.For(euonymus with { Tap = new TapSeen(Day, [4, 6, 5]) }).Lines[0].Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Old_leaves_ask_for_a_look_and_no_leaves_for_photos()
    {
        Assert.StartsWith("Look first", NextAdvice.For(Hot with { LastLeavesOn = Day.AddDays(-60), IsDamageRising = false, IsNewGrowthClean = true }).Lines[0].Words);
        Assert.StartsWith("Photograph ten leaves", NextAdvice.For(Hot with { LastLeavesOn = null, Damage = null, IsDamageRising = null }).Lines[0].Words);
    }

    [Fact]
    public void The_cool_gives_warm_mites_a_rest_and_cool_ones_none()
    {
        PlantSituation cool = Hot with { Today = new DateOnly(2026, 4, 2), LastLeavesOn = new DateOnly(2026, 4, 2), MeanC = 8 };

        Assert.True(NextAdvice.For(cool).IsRest);
        Assert.Empty(NextAdvice.For(cool).Cautions);
        Assert.False(NextAdvice.For(cool with { Mite = MiteCalendar.Cool }).IsRest);
    }

    [Fact]
    public void Oil_is_left_out_of_the_steps_where_it_does_not_suit()
    {
        CareDone[] tried = [.. Enumerable.Range(1, 3).Select(day => new CareDone(Day.AddDays(-3 * day), CareKind.Rinse)), new(Day.AddDays(-2), CareKind.Soap)];
        PlantSituation many = Hot with { Tap = new TapSeen(Day, [30, 25, 40]), Care = tried, HighestC = 26 };

        Assert.Contains("oil", NextAdvice.For(many).Lines[0].Words, StringComparison.Ordinal);
        Assert.Contains("predators", NextAdvice.For(many with { Species = "Picea pungens" }).Lines[0].Words, StringComparison.Ordinal);
        Assert.Contains("predators", NextAdvice.For(many with { HighestC = 34 }).Lines[0].Words, StringComparison.Ordinal);
    }
}
