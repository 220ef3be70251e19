using System.Globalization;
using LeafScan.Trends.Verdicts;
using LeafScan.Trends.Weather;

namespace LeafScan.Trends.NextSteps;

/// <summary>When to look again: within a generation of the mites at the temperature of the last days.</summary>
internal static class Recheck
{
    public const int DaysLeast = 4;

    public const int DaysMost = 14;

    private const int DaysAsleep = 21;

    public static (int Days, AdviceLine Line) Of(PlantSituation plant)
    {
        Development? speed = Development.Of(plant.Mite, plant.MeanC, plant.Species);
        bool isAsleep = IsAsleep(plant);
        int days = isAsleep ? DaysAsleep : Math.Clamp(speed?.DaysLeast ?? 7, DaysLeast, DaysMost);
        string day = plant.Today.AddDays(days).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        return (days, new(
            $"Look again about {day}: the same leaves, new growth, a tap.",
            isAsleep ? "Mites are idle in the cool."
                : speed is null ? "A week is usual where no temperature is on record or no figure is known for this mite."
                : Words.Text($"A generation takes {speed.DaysLeast} to {speed.DaysMost} days ({speed.Valid}); kept between {DaysLeast} and {DaysMost}."),
            isAsleep ? "NC State 2014, North Carolina; three weeks " + AdviceLine.Own : speed?.Source ?? "Texas Master Gardeners, Texas: retap in 7-10 days"));
    }

    /// <summary>Warm mites are idle in the cool; cool ones are not.</summary>
    public static bool IsAsleep(PlantSituation plant) => plant.MeanC < Development.IdleBelowC && plant.Mite == MiteCalendar.Warm;
}
