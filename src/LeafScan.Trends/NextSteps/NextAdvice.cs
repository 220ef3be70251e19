using System.Globalization;
using LeafScan.Records;
using LeafScan.Trends.Sampling;
using LeafScan.Trends.Weather;

namespace LeafScan.Trends.NextSteps;

/// <summary>One line of advice.</summary>
/// <param name="Words">What to do or to mind.</param>
/// <param name="Reason">Why.</param>
/// <param name="Source">Where that is from, with region.</param>
public sealed record AdviceLine(string Words, string Reason, string Source);

/// <summary>What to do next with one plant. It never names a rate.</summary>
/// <param name="RecheckOn">Day on which to look again.</param>
/// <param name="IsRest">Whether nothing needs doing until then.</param>
/// <param name="Lines">Advice, most pressing first.</param>
/// <param name="Cautions">What to mind before anything is sprayed; empty at rest.</param>
public sealed record NextAdvice(DateOnly RecheckOn, bool IsRest, IReadOnlyList<AdviceLine> Lines, IReadOnlyList<AdviceLine> Cautions)
{
    private const string Own = "our own choice, no source";

    /// <summary>Works advice out.</summary>
    /// <param name="plant">What is known.</param>
    public static NextAdvice For(PlantSituation plant)
    {
        List<AdviceLine> lines = [];
        (int days, AdviceLine recheck) = Recheck(plant);
        bool isTapFresh = plant.Tap is { } tap && plant.Today.DayNumber - tap.Day.DayNumber <= days && tap.Counts.Count > 0;
        bool isRest = false;
        if (isTapFresh)
        {
            isRest = JudgeTap(plant, lines);
        }
        else if (IsAsleep(plant))
        {
            isRest = true;
            lines.Add(new("Nothing to do now.", "So cool that mites are idle.", "NC State 2014, North Carolina: twospotted mites are idle below about 50 F"));
        }
        else if (plant is { IsDamageRising: not true, IsNewGrowthClean: true })
        {
            isRest = true;
            lines.Add(new("Nothing to do now.", "New growth is clean and damage is not surely rising; old marks stay whatever is done.", "NC State CTN-029: damage does not heal"));
        }
        else
        {
            lines.Add(new("Tap before treating: three branches or more, dry foliage, the same strikes each time.", "Damage shows after the mites have fed; leaves alone never say that mites are there now.", "Nebraska Extension 2023; Cornell, New York; number of branches " + Own));
        }

        if (IsSummerOfCoolMite(plant))
        {
            lines.Add(new("Expect eggs rather than mites now.", "Cool mites sit out the summer as eggs; damage that shows now was made in spring.", "Penn State; Oregon State; Nebraska Extension 2023. In the cool North Carolina mountains they feed on (NC State CTN-029)"));
        }

        lines.Add(recheck);
        return new NextAdvice(plant.Today.AddDays(days), isRest, lines, isRest ? [] : CareCautions.Of(plant));
    }

    // True for a rest.
    private static bool JudgeTap(PlantSituation plant, List<AdviceLine> lines)
    {
        TapSeen tap = plant.Tap!;
        CountMean mites = CountMean.Of(tap.Counts, 0.9);
        string seen = Text($"{mites.Total} mites on {mites.UnitCount} taps: {mites.Mean:0.0} a tap, with 90 % trust {mites.Interval.Low:0.0} to {mites.Interval.High:0.0}.");
        if (tap.HoursSinceWet is < 24)
        {
            lines.Add(new("Tap again once the plant has been dry for a day.", "Water just before a tap makes the count low.", "common practice, no source"));
            return false;
        }

        if (tap.Predators is { } predators && mites.Total > 0 && predators * 10 >= mites.Total)
        {
            lines.Add(new("Leave it to the predators and look again.", Text($"{seen} {predators} predators: at least 1 to 10."), "UC IPM Pest Notes 7405, California (seen second-hand)"));
            return false;
        }

        if (mites.Interval.High < plant.MitesPerTap)
        {
            lines.Add(new("Nothing to do but look again.", Text($"{seen} Surely below {plant.MitesPerTap:0.#} a tap."), Threshold(plant)));
            return mites.Total == 0 && plant.IsDamageRising != true;
        }

        if (mites.Interval.Low <= plant.MitesPerTap)
        {
            double units = Math.Ceiling(SampleSizes.ForMean(mites.Mean, mites.Mean + (mites.K is { } k ? mites.Mean * mites.Mean / k : 0)));
            lines.Add(new(
                Text($"Tap more branches: {Math.Max(units, tap.Counts.Count + 2)} in all."),
                Text($"{seen} That may lie on either side of {plant.MitesPerTap:0.#} a tap; so many give a standard error of a quarter of the mean."),
                Threshold(plant)));
        }

        lines.Add(NextCare(plant, seen));
        return false;
    }

    // The lightest kind that was not tried in the last eight weeks; rinsing counts as tried after three times.
    private static AdviceLine NextCare(PlantSituation plant, string seen)
    {
        int Done(CareKind kind) => plant.Care.Count(care => care.What == kind && care.Day <= plant.Today && plant.Today.DayNumber - care.Day.DayNumber <= 56);
        return Done(CareKind.Rinse) < 3
            ? new("If anything, rinse: undersides, about every three days for two weeks.", seen + " The lightest step comes first; eggs stay, so once is not enough.", "St. Louis garden column 2023, Missouri, on burning bush; order of steps: " + Own)
            : Done(CareKind.Soap) == 0
            ? new("Next lightest step: insecticidal soap by its label, both sides of the leaves.", seen + " Rinsing was tried three times.", "University of Florida/IFAS, Florida")
            : Done(CareKind.Oil) == 0
            ? new("Next lightest step: horticultural oil by its label, if the plant bears oil.", seen + " Rinsing and soap were tried.", "WSU Hortsense, Washington")
            : Done(CareKind.Predators) == 0
            ? new("Next step: release predators, and spray nothing that kills them.", seen + " Rinsing, soap and oil were tried.", "PNW Insect Handbook, Pacific Northwest; UC IPM, California")
            : new("Last step: a miticide by its label, by whoever the law lets apply it, of another group than the last one in your log.", seen + " Every lighter step was tried.", "order of steps: " + Own);
    }

    private static (int Days, AdviceLine Line) Recheck(PlantSituation plant)
    {
        Development? speed = Development.Of(plant.Mite, plant.MeanC);
        bool isAsleep = IsAsleep(plant);
        int days = isAsleep ? 21 : Math.Clamp(speed?.DaysLeast ?? 7, 4, 14);
        string day = plant.Today.AddDays(days).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        return (days, new(
            $"Look again about {day}: the same leaves, new growth, a tap.",
            isAsleep ? "Mites are idle in the cool."
                : speed is null ? "No temperature or no figure for this mite, so a week."
                : Text($"A generation takes {speed.DaysLeast} to {speed.DaysMost} days ({speed.Valid}); kept between 4 and 14."),
            speed?.Source ?? "Texas Master Gardeners, Texas: retap in 7-10 days"));
    }

    private static bool IsAsleep(PlantSituation plant) => plant.MeanC < Development.IdleBelowC && plant.Mite is (MiteKind.Twospotted or MiteKind.Honeylocust);

    private static bool IsSummerOfCoolMite(PlantSituation plant) => plant.Today.Month is (7 or 8) && plant.Mite is (MiteKind.Spruce or MiteKind.SouthernRed);

    private static string Threshold(PlantSituation plant) => plant.MitesPerTap == 10
        ? "10 a tap: Nebraska Extension 2023, landscape conifers (partly from memory); none was found for burning bush, boxwood or rose"
        : "your own threshold";

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}
