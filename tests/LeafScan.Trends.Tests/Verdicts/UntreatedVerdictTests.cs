using LeafScan.Trends.Verdicts;

namespace LeafScan.Trends.Tests.Verdicts;

public sealed class UntreatedVerdictTests
{
    [Fact]
    public void Leaves_that_gain_damage_are_said_to()
    {
        Verdict verdict = Judge(SomePlant.Visits((0, 0.02), (14, 0.08)));
        Assert.Equal(VerdictWord.NewDamage, verdict.Word);
        Assert.Contains(verdict.Because, sentence => sentence.Contains("not that it still comes", StringComparison.Ordinal));
        Assert.StartsWith("Tap", verdict.Next, StringComparison.Ordinal);
    }

    [Fact]
    public void Leaves_that_stay_as_they_are_are_said_to()
        => Assert.Equal(VerdictWord.NoNewDamage, Judge(SomePlant.Visits((0, 0.08), (14, 0.081))).Word);

    [Fact]
    public void Other_leaves_with_much_more_damage_still_show_that_it_came()
        => Assert.Equal(VerdictWord.NewDamage, Judge(SomePlant.Visits(false, (0, 0.02), (28, 0.18))).Word);

    [Fact]
    public void Other_leaves_with_less_damage_show_nothing()
        => Assert.Equal(VerdictWord.CannotTell, Judge(SomePlant.Visits(false, (0, 0.18), (28, 0.09))).Word);

    [Fact]
    public void A_plant_without_a_speck_has_no_new_damage_even_without_tags()
        => Assert.Equal(VerdictWord.NoNewDamage, Judge(SomePlant.Visits(false, (0, 0), (28, 0))).Word);

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void One_visit_or_none_is_too_early(int count)
        => Assert.Equal(VerdictWord.TooEarly, Judge([.. SomePlant.Visits((0, 0.05)).Take(count)]).Word);

    [Fact]
    public void Visits_a_few_days_apart_are_too_early()
        => Assert.Equal(VerdictWord.TooEarly, Judge(SomePlant.Visits((0, 0.05), (3, 0.09))).Word);

    private static Verdict Judge(IReadOnlyList<HistoryVisit> visits) => CareVerdict.Judge(new PlantHistory { Name = "B1", Visits = visits });
}
