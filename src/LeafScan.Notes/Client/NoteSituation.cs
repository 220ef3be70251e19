using LeafScan.Records;
using LeafScan.Trends.NextSteps;
using LeafScan.Trends.Verdicts;
using LeafScan.Trends.Weather;

namespace LeafScan.Notes.Client;

/// <summary>What the record knows that advice on the next step rests on.</summary>
internal static class NoteSituation
{
    // "The last days": a week.
    private const int WeatherDays = 7;

    /// <summary>Puts it together.</summary>
    public static PlantSituation Of(RecordStore store, Plant plant, DateOnly today, Verdict verdict, NoteFigure? now)
    {
        List<WeatherDay> week = [.. store.WeatherOfPlace(plant.PlaceId).Where(day => day.Day <= today && today.DayNumber - day.Day.DayNumber < WeatherDays)];
        TapOnRecord[] taps = [.. store.TapsOfPlant(plant.Id)];
        DateOnly? lastTap = taps.Length == 0 ? null : taps.Max(tap => tap.Tap.Day);
        TapOnRecord[] latest = [.. taps.Where(tap => tap.Tap.Day == lastTap)];
        return new PlantSituation
        {
            Today = today,
            Species = plant.Species,
            Mite = RecordHistory.CalendarOf(plant) switch
            {
                MiteCalendar.Warm => MiteKind.Twospotted,
                MiteCalendar.Cool => MiteKind.Spruce,
                MiteCalendar.Boxwood => MiteKind.Boxwood,
                _ => MiteKind.Unknown,
            },
            MeanC = week.Count == 0 ? null : week.Average(day => (day.LowC + day.HighC) / 2),
            HighestC = week.Count == 0 ? null : week.Max(day => day.HighC),
            LastLeavesOn = now?.Day,
            Damage = now?.Damage,
            IsDamageRising = verdict.Word switch
            {
                VerdictWord.NewDamage => true,
                VerdictWord.NoNewDamage => false,
                _ => null,
            },
            Tap = lastTap is { } day ? new TapSeen(day, [.. latest.Select(tap => tap.LiveMites)], SumOrNull(latest), latest.Min(tap => tap.Tap.HoursSinceWet)) : null,
            Care = [.. store.CareOfPlant(plant.Id).Where(care => care.What != CareKind.Nothing).Select(care => new CareDone(care.DoneOn, care.What, $"{care.Note} {care.Details.Active}".Trim()))],
        };
    }

    private static int? SumOrNull(TapOnRecord[] taps) => taps.Any(tap => tap.Tap.Predators is not null) ? taps.Sum(tap => tap.Tap.Predators ?? 0) : null;
}
