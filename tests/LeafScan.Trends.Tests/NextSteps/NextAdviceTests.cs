using LeafScan.Records;
using LeafScan.Trends.NextSteps;
using LeafScan.Trends.Weather;

namespace LeafScan.Trends.Tests.NextSteps;

public sealed class NextAdviceTests
{
    private static readonly DateOnly Day = new(2026, 7, 10);
    private static readonly PlantSituation Hot = new() { Today = Day, Mite = MiteKind.Twospotted, MeanC = 30, Damage = 0.1, IsDamageRising = true };

    // 146.48/(T - 12.5): Egyptian Acad. J. Biol. Sci. B 12844; 8.4 days at 30 °C, 11.7 at 25 (computed from it).
    [Fact]
    public void The_recheck_comes_within_a_generation()
    {
        Assert.Equal(Day.AddDays(8), NextAdvice.For(Hot).RecheckOn);
        Assert.Equal(Day.AddDays(11), NextAdvice.For(Hot with { MeanC = 25 }).RecheckOn);
        Assert.Equal(Day.AddDays(7), NextAdvice.For(Hot with { MeanC = null }).RecheckOn);
        Assert.Null(Development.Of(MiteKind.Twospotted, 9));
        Assert.Null(Development.Of(MiteKind.Twospotted, 36));
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
        Assert.Contains(NextAdvice.For(Hot with { Mite = MiteKind.Spruce }).Lines, line => line.Words.Contains("eggs", StringComparison.Ordinal));
        Assert.DoesNotContain(NextAdvice.For(Hot).Lines, line => line.Words.Contains("eggs", StringComparison.Ordinal));
    }

    [Fact]
    public void Cautions_come_from_plant_weather_and_log()
    {
        string all = string.Join(" ", NextAdvice.For(Hot with
        {
            HighestC = 34, Species = "Picea pungens 'Hoopsii'", Care = [new(Day.AddDays(-30), CareKind.Miticide, "Imidacloprid drench")],
        }).Cautions.Select(line => line.Words));

        Assert.Contains("label", all, StringComparison.Ordinal);
        Assert.Contains("No oil now", all, StringComparison.Ordinal);
        Assert.Contains("blue spruce", all, StringComparison.Ordinal);
        Assert.Contains("imidacloprid", all, StringComparison.Ordinal);
        Assert.DoesNotContain("imidacloprid", string.Join(" ", NextAdvice.For(Hot).Cautions.Select(line => line.Words)), StringComparison.Ordinal);
    }
}
