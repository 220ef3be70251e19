using LeafScan.Trends.Verdicts;

namespace LeafScan.Trends.NextSteps;

/// <summary>What to do next with one plant. It never names a rate.</summary>
/// <param name="RecheckOn">Day on which to look again.</param>
/// <param name="IsRest">Whether nothing needs doing until then.</param>
/// <param name="Lines">Advice, most pressing first; the last line says when to look again and why then.</param>
/// <param name="Cautions">What to mind before anything is sprayed; empty at rest.</param>
public sealed record NextAdvice(DateOnly RecheckOn, bool IsRest, IReadOnlyList<AdviceLine> Lines, IReadOnlyList<AdviceLine> Cautions)
{
    /// <summary>Older leaves say nothing of today. Our own choice.</summary>
    public const int DaysLeavesSpeak = 28;

    private const double HardlyAMark = 0.02;

    /// <summary>Works advice out.</summary>
    /// <param name="plant">What is known.</param>
    public static NextAdvice For(PlantSituation plant)
    {
        List<AdviceLine> lines = [];
        (int days, AdviceLine recheck) = Recheck.Of(plant);
        bool isTapFresh = plant.Tap is { } tap && plant.Today.DayNumber - tap.Day.DayNumber <= days && tap.Counts.Count > 0;
        bool isRest = isTapFresh ? TapAdvice.Give(plant, lines) : WithoutTap(plant, lines);
        if (IsSummerOfCoolMite(plant))
        {
            lines.Add(new("Expect eggs rather than mites now.", "Cool mites sit out the summer as eggs; damage that shows now was made in spring.", "Penn State; Oregon State; Nebraska Extension 2023. In the cool North Carolina mountains they feed on (NC State CTN-029)"));
        }

        if (plant.DamageInSight is { } sight && plant.Damage > sight.Value)
        {
            lines.Add(new("Its marks can be seen, and they stay: tell the client or buyer now.", Words.Text($"{plant.Damage * 100:0.0} % of its leaves is discoloured; people call it damaged from {sight.Value * 100:0.#} % on."), Words.Of(sight)));
        }

        if (plant.IsCheck)
        {
            lines.Add(new("It is your untreated plant: treat it last, and note it when you do.", "Without one every August looks like success.", AdviceLine.Common));
        }

        lines.Add(recheck);
        return new NextAdvice(plant.Today.AddDays(days), isRest, Said(plant.Kind, lines), isRest ? [] : Said(plant.Kind, CareCautions.Of(plant)));
    }

    private static AdviceLine[] Said(string kind, IEnumerable<AdviceLine> lines)
        => [.. lines.Select(line => line with { Words = KindSentences.Of(kind, line.Words), Reason = KindSentences.Of(kind, line.Reason) })];

    // True for a rest.
    private static bool WithoutTap(PlantSituation plant, List<AdviceLine> lines)
    {
        if (Recheck.IsAsleep(plant))
        {
            lines.Add(new("Rest: nothing to do now.", "So cool that mites are idle.", "NC State 2014, North Carolina: twospotted mites are idle below about 50 F"));
            return true;
        }

        if (plant.LastLeavesOn is not { } last)
        {
            lines.Add(new("Photograph ten leaves, tag them, and tap.", "Nothing was measured on it yet.", "number of leaves " + AdviceLine.Own));
            return false;
        }

        if (plant.Today.DayNumber - last.DayNumber > DaysLeavesSpeak)
        {
            lines.Add(new("Look first: the same leaves, new growth, a tap.", Words.Text($"Its last leaves are of {last:yyyy-MM-dd}; mites come and go within weeks."), "Bounfour and Tanigoshi 2001: doubling in 2 to 9 days; limit of four weeks " + AdviceLine.Own));
            return false;
        }

        if (plant is { IsDamageRising: not true, IsNewGrowthClean: true })
        {
            lines.Add(new("Rest: nothing to do now.", "New growth is clean and damage is not surely rising; old marks stay whatever is done.", "NC State CTN-029: damage does not heal"));
            return true;
        }

        if (plant is { IsDamageRising: false, Damage: < HardlyAMark, IsNewGrowthClean: not false })
        {
            lines.Add(new("Rest: nothing to do now.", "Hardly a mark on its leaves, and surely none to speak of came.", "limit of 2 % " + AdviceLine.Own));
            return true;
        }

        lines.Add(new(
            "Tap before treating: three branches or more, dry foliage, the same strikes each time.", "Damage shows after the mites have fed; leaves alone never say that mites are there now.",
            "Nebraska Extension 2023; Cornell, New York; number of branches " + AdviceLine.Own));
        return false;
    }

    private static bool IsSummerOfCoolMite(PlantSituation plant) => plant.Today.Month is (7 or 8) && plant.Mite == MiteCalendar.Cool;
}
