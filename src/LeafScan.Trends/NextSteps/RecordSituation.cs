using LeafScan.Records;
using LeafScan.Trends.Thresholds;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Trends.NextSteps;

/// <summary>Makes the situation of a plant from what the record holds. Entries after the day asked for are left out.</summary>
public static class RecordSituation
{
    /// <summary>Days of leaves that are looked at. Our own choice.</summary>
    public const int DaysOfLeaves = 42;

    private const int DaysOfWeather = 7, WeatherDaysLeast = 3;

    /// <summary>Puts it together.</summary>
    /// <param name="plant">The plant.</param>
    /// <param name="leaves">Its leaves, at least those of the last <see cref="DaysOfLeaves"/> days.</param>
    /// <param name="care">Its care entries.</param>
    /// <param name="taps">Its taps.</param>
    /// <param name="weather">Weather of its place.</param>
    /// <param name="today">Day for which advice is wanted.</param>
    /// <param name="thresholds">Thresholds in force.</param>
    /// <param name="client">Client of its place; null for none.</param>
    public static PlantSituation Of(
        Plant plant, IEnumerable<LeafOnRecord> leaves, IEnumerable<CareEntry> care, IEnumerable<TapOnRecord> taps, IEnumerable<WeatherDay> weather,
        DateOnly today, ThresholdTable thresholds, string? client)
        => Of(plant, LeafState.Of(plant, leaves, today), care, taps, weather, today, thresholds, client);

    /// <summary>Puts it together from what the leaves said for that day.</summary>
    /// <param name="plant">The plant.</param>
    /// <param name="leaves">What its leaves say, for the same day.</param>
    /// <param name="care">Its care entries.</param>
    /// <param name="taps">Its taps.</param>
    /// <param name="weather">Weather of its place.</param>
    /// <param name="today">Day for which advice is wanted.</param>
    /// <param name="thresholds">Thresholds in force.</param>
    /// <param name="client">Client of its place; null for none.</param>
    public static PlantSituation Of(
        Plant plant, LeafState leaves, IEnumerable<CareEntry> care, IEnumerable<TapOnRecord> taps, IEnumerable<WeatherDay> weather,
        DateOnly today, ThresholdTable thresholds, string? client)
    {
        WeatherDay[] days = [.. weather.Where(day => day.Day <= today && day.Day.DayNumber > today.DayNumber - DaysOfWeather)];
        bool isWeatherKnown = days.Length >= WeatherDaysLeast;
        return new PlantSituation
        {
            Today = today,
            Mite = RecordHistory.CalendarOf(plant),
            Species = plant.Species,
            Cultivar = plant.Facts.Cultivar,
            IsCheck = plant.Facts.IsCheck,
            MeanC = isWeatherKnown ? days.Average(day => (day.LowC + day.HighC) / 2) : null,
            HighestC = isWeatherKnown ? days.Max(day => day.HighC) : null,
            Kind = leaves.Kind,
            LastLeavesOn = leaves.LastOn,
            Damage = leaves.Damage,
            IsDamageRising = leaves.IsRising,
            IsNewGrowthClean = leaves.IsNewGrowthClean,
            Tap = TapOf(taps, today),
            Care = [.. care.Where(entry => entry.DoneOn <= today).Select(CareOf)],
            MitesPerTap = thresholds.For(ThresholdMeasure.MitesPerTap, plant.Species, client),
            PredatorsPerMite = thresholds.For(ThresholdMeasure.PredatorsPerMite, plant.Species, client),
            DamageInSight = thresholds.For(ThresholdMeasure.DamageInSight, plant.Species, client),
        };
    }

    /// <summary>A care entry of the record.</summary>
    public static CareDone CareOf(CareEntry entry) => new(entry.DoneOn, entry.What, entry.Note) { Active = entry.Details.Active, ModeGroup = entry.Details.ModeGroup };

    private static TapSeen? TapOf(IEnumerable<TapOnRecord> taps, DateOnly today)
    {
        TapOnRecord[][] days = [.. taps.Where(tap => tap.Tap.Day <= today).GroupBy(tap => tap.Tap.Day).OrderByDescending(day => day.Key).Take(2).Select(day => day.ToArray())];
        if (days.Length == 0)
        {
            return null;
        }

        TapOnRecord[] last = days[0];
        return new TapSeen(
            last[0].Tap.Day,
            [.. last.Select(tap => tap.LiveMites)],
            last.All(tap => tap.Tap.Predators is not null) ? last.Sum(tap => tap.Tap.Predators) : null,
            last.Min(tap => tap.Tap.HoursSinceWet))
        {
            Branches = [.. last.Select(tap => tap.BranchCount)],
            MeanBefore = days.Length > 1 ? TapOnRecord.MitesABranch(days[1]) : null,
        };
    }
}
