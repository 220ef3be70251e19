using System.Text.RegularExpressions;
using LeafScan.Records;
using LeafScan.Trends.NextSteps;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Trends.Tests;

/// <summary>Nobody is told to look at the same leaves of a spruce.</summary>
public sealed partial class KindSentencesTests
{
    private static readonly DateOnly Day = new(2026, 7, 10);

    [Fact]
    public void Leaves_keep_every_word() => Assert.Equal("Look again: the same leaves, and a tap.", KindSentences.Of("leaf", "Look again: the same leaves, and a tap."));

    [Theory]
    [InlineData("twig", "Look again about 2026-07-12: the same twigs, new growth, a tap.")]
    [InlineData("plant", "Look again about 2026-07-12: the whole plant from the same place, new growth, a tap.")]
    public void The_next_look_is_at_what_was_photographed(string kind, string said)
        => Assert.Equal(said, KindSentences.Of(kind, "Look again about 2026-07-12: the same leaves, new growth, a tap."));

    [Fact]
    public void To_leave_is_another_word()
    {
        Assert.Equal("None found leaves room for up to 2.3 a tap.", KindSentences.Of("twig", "None found leaves room for up to 2.3 a tap."));
        Assert.Equal("The foliage was so damaged that mites run out of food and leave by themselves.", KindSentences.Of("twig", "The leaves were so damaged that mites run out of food and leave by themselves."));
        Assert.Equal("when damaged needles drop, the average falls", KindSentences.Of("plant", "when damaged leaves drop, the average falls"));
    }

    [Theory]
    [InlineData("twig")]
    [InlineData("plant")]
    public void No_verdict_and_no_advice_on_them_speaks_of_leaves(string kind)
    {
        Plant plant = new(1, 1, "S4", null, "Picea glauca", "Garden");
        CareEntry[] care = [];
        foreach (int visits in new[] { 0, 1, 2, 6 })
        {
            foreach (string? tag in new[] { null, "a" })
            {
                LeafOnRecord[] readings =
                [
                    .. from visit in Enumerable.Range(0, visits)
                       from i in Enumerable.Range(0, 6)
                       select Some.Leaf(0.05 + (0.02 * visit) + (0.01 * i), Day.AddDays((visit - visits) * 7)) with { Kind = kind, Tag = tag is null ? null : tag + i },
                ];
                PlantHistory history = RecordHistory.Of(plant, readings, care, []) with { Kind = kind };
                foreach (PlantHistory one in new[] { history, history with { Care = [new HistoryCare(Day.AddDays(-20), CareKind.Rinse)] } })
                {
                    Verdict verdict = CareVerdict.Judge(one);
                    foreach (string sentence in (string[])[.. verdict.Because, verdict.Next, .. verdict.Rivals.Select(rival => rival.Sentence), verdict.Trend?.Words ?? ""])
                    {
                        Assert.DoesNotMatch(Leaf(), sentence);
                    }
                }

                LeafState state = LeafState.Of(plant, readings, Day) with { Kind = kind };
                foreach (PlantSituation situation in Situations(kind, state))
                {
                    NextAdvice advice = NextAdvice.For(situation);
                    foreach (AdviceLine line in advice.Lines.Concat(advice.Cautions))
                    {
                        Assert.DoesNotMatch(Leaf(), line.Words.Replace("leaves room", "", StringComparison.Ordinal));
                        Assert.DoesNotMatch(Leaf(), line.Reason.Replace("leaves room", "", StringComparison.Ordinal));
                    }
                }

                if (visits > 1)
                {
                    MonthComparison compared = MonthComparison.Of(readings, new Month(2026, 6), new Month(2026, 7), null, () => new Random(1));
                    Assert.DoesNotMatch(Leaf(), compared.Because + compared.Caution);
                }
            }
        }
    }

    private static IEnumerable<PlantSituation> Situations(string kind, LeafState state)
    {
        PlantSituation plain = new() { Today = Day, Kind = kind, Mite = MiteCalendar.Cool, Species = "Picea glauca", MeanC = 22, Damage = state.Damage, LastLeavesOn = state.LastOn, IsDamageRising = state.IsRising };
        return [plain, plain with { LastLeavesOn = null }, plain with { LastLeavesOn = Day.AddDays(-60) }, plain with { IsNewGrowthClean = true, IsDamageRising = false }, plain with { Damage = 0.01, IsDamageRising = false },
            plain with { Tap = new TapSeen(Day, [0, 0, 0]) }, plain with { Tap = new TapSeen(Day, [30, 25, 40]) }];
    }

    [GeneratedRegex(@"\b([Ll]eaf|[Ll]eaves)\b(?! by themselves)")]
    private static partial Regex Leaf();
}
