using LeafScan.Records;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Trends.Tests.Verdicts;

public sealed class BasicsTests
{
    // r 0.08 a day at 15 °C and 0.321 at 30 °C: Bounfour and Tanigoshi 2001, Ann. Entomol. Soc. Am. 94:400-404. Doubling computed from them.
    [Theory]
    [InlineData(15, 0.08, 8.7)]
    [InlineData(30, 0.321, 2.2)]
    public void Growth_meets_the_published_rates(double celsius, double rate, double doublingDays)
    {
        Assert.Equal(rate, Warmth.GrowthADay(celsius), 6);
        Assert.Equal(doublingDays, Math.Log(2) / Warmth.GrowthADay(celsius), 1);
    }

    [Fact]
    public void Growth_never_falls_with_warmth()
    {
        for (int celsius = -10; celsius < 45; celsius++)
        {
            Assert.True(Warmth.GrowthADay(celsius) <= Warmth.GrowthADay(celsius + 1));
        }
    }

    [Theory]
    [InlineData("Euonymus alatus", MiteCalendar.Warm)]
    [InlineData("Picea glauca 'Conica'", MiteCalendar.Cool)]
    [InlineData("buxus sempervirens", MiteCalendar.Boxwood)]
    [InlineData(null, MiteCalendar.Unknown)]
    [InlineData(" ", MiteCalendar.Unknown)]
    public void The_species_tells_the_calendar(string? species, MiteCalendar calendar) => Assert.Equal(calendar, QuietSeason.CalendarOf(species));

    // Warm mites peak in July and collapse in August (UMass, Utah State); spruce mites feed in spring and fall (Penn State, Oregon State).
    [Theory]
    [InlineData(MiteCalendar.Warm, 6, 20, false)]
    [InlineData(MiteCalendar.Warm, 8, 20, true)]
    [InlineData(MiteCalendar.Cool, 4, 20, false)]
    [InlineData(MiteCalendar.Cool, 7, 10, true)]
    [InlineData(MiteCalendar.Cool, 9, 20, false)]
    public void Mites_stop_by_themselves_in_their_season(MiteCalendar calendar, int month, int day, bool stops)
    {
        DateOnly date = new(2026, month, day);
        Assert.Equal(stops, QuietSeason.Begins(calendar, date, date) is not null);
    }

    [Fact]
    public void Every_word_has_names_of_its_own()
    {
        VerdictWord[] words = Enum.GetValues<VerdictWord>();
        Assert.Equal(words.Length, words.Select(VerdictNames.InDocuments).Distinct().Count());
        Assert.Equal(words.Length, words.Select(VerdictNames.OnScreen).Distinct().Count());
        Assert.Equal(["working", "notWorking", "tooEarly", "cannotTell", "newDamage", "noNewDamage"], words.Select(VerdictNames.InDocuments));
    }

    [Fact]
    public void A_plant_left_alone_beside_a_treated_one_of_its_kind_is_a_check()
    {
        Plant treated = new(1, 1, "B1", null, "Euonymus alatus", "Nursery");
        Plant alone = new(2, 1, "B2", null, "euonymus alatus", "Nursery");
        CareEntry rinse = new(1, 1, SomePlant.Care, CareKind.Rinse, null);
        CareEntry nothing = new(2, 2, SomePlant.Care, CareKind.Nothing, null);
        Assert.True(RecordHistory.IsCheck(treated, [rinse], alone, [nothing]));
        Assert.False(RecordHistory.IsCheck(treated, [rinse], alone, []));
        Assert.False(RecordHistory.IsCheck(treated, [rinse], alone, [nothing, rinse]));
        Assert.False(RecordHistory.IsCheck(treated, [rinse], alone with { Species = "Buxus" }, [nothing]));
        Assert.False(RecordHistory.IsCheck(treated, [rinse], alone with { PlaceId = 9 }, [nothing]));
        Assert.False(RecordHistory.IsCheck(treated, [rinse], treated, [nothing]));
        Plant marked = alone with { Facts = new PlantFacts { IsCheck = true } };
        Assert.True(RecordHistory.IsCheck(treated, [rinse], marked, []));
        Assert.False(RecordHistory.IsCheck(treated, [rinse], marked, [rinse]));
    }

    [Fact]
    public void What_the_record_holds_stands_in_the_history()
    {
        Plant plant = new(1, 1, "B1", null, "Euonymus alatus", "Nursery") { Facts = new PlantFacts { Season = MiteSeason.Cool } };
        LeafOnRecord leaf = Some.Leaf(0.2) with { Age = LeafGrowth.New, Tag = "3" };
        TapOnRecord tap = new(1, new NewTap { PlantId = 1, Day = Some.June, MitesByLens = 4, MitesByPhoto = 9, Strikes = 5, Predators = 0, HoursSinceWet = 30 });
        PlantHistory history = RecordHistory.Of(plant, [leaf, Some.Leaf(0.3)], [], [], null, [tap], [new WeatherDay(Some.June, 12, 28, "a.csv")]);
        Assert.Equal(MiteCalendar.Cool, history.Calendar);
        Assert.Equal([(LeafAge.NewGrowth, "3"), (LeafAge.Unknown, null)], Assert.Single(history.Visits).Leaves.Select(one => (one.Age, one.Tag)));
        Assert.Equal(new HistoryTap(Some.June, 4, 5, 0, 30), Assert.Single(history.Taps));
        Assert.Equal(3, Assert.Single(RecordHistory.Of(plant, [], [], [], null, [new(1, tap.Tap with { Branches = 3 })]).Taps).Branches);
        Assert.Equal(new HistoryWeather(Some.June, 12, 28), Assert.Single(history.Weather));
        Assert.Equal(MiteCalendar.Warm, RecordHistory.CalendarOf(plant with { Facts = new PlantFacts() }));
    }

    [Fact]
    public void Leaves_that_could_not_be_judged_are_left_out()
    {
        Plant plant = new(1, 1, "B1", null, "Euonymus alatus", "Nursery");
        LeafOnRecord hidden = Some.Leaf(0.1) with { Shares = new Leaves.Reading.LeafShares(0.3, 0, 0, 0, 0, 0.7) };
        PlantHistory history = RecordHistory.Of(plant, [Some.Leaf(0.2), hidden], [], []);
        Assert.Equal(0.2, Assert.Single(Assert.Single(history.Visits).Leaves).Damage);
    }
}
