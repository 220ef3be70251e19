using LeafScan.Records;
using LeafScan.Trends.Thresholds;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Trends.NextSteps;

/// <summary>Makes the situation of a plant from what the record holds. Entries after the day asked for are left out.</summary>
public static class RecordSituation
{
    /// <summary>Days of leaves that are looked at. Our own choice.</summary>
    public const int DaysOfLeaves = 42;

    private const int DaysOfWeather = 7, WeatherDaysLeast = 3, NewLeavesLeast = 3;

    private const double CleanBelow = 0.02;

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
    {
        PlantHistory history = RecordHistory.Of(plant, leaves.Where(leaf => leaf.WalkedOn <= today), [], []);
        HistoryVisit[] visits = Visits.ByDay(history.Visits);
        HistoryVisit? last = visits.Length == 0 ? null : visits[^1];
        WeatherDay[] days = [.. weather.Where(day => day.Day <= today && day.Day.DayNumber > today.DayNumber - DaysOfWeather)];
        bool isWeatherKnown = days.Length >= WeatherDaysLeast;
        return new PlantSituation
        {
            Today = today,
            Mite = history.Calendar,
            Species = plant.Species,
            Cultivar = plant.Facts.Cultivar,
            IsCheck = plant.Facts.IsCheck,
            MeanC = isWeatherKnown ? days.Average(day => (day.LowC + day.HighC) / 2) : null,
            HighestC = isWeatherKnown ? days.Max(day => day.HighC) : null,
            LastLeavesOn = last?.Day,
            Damage = last?.Leaves.Average(leaf => leaf.Damage),
            IsDamageRising = Rising(history, visits, today),
            IsNewGrowthClean = Clean(last),
            Tap = TapOf(taps, today),
            Care = [.. care.Where(entry => entry.DoneOn <= today).Select(CareOf)],
            MitesPerTap = thresholds.For(ThresholdMeasure.MitesPerTap, plant.Species, client),
            PredatorsPerMite = thresholds.For(ThresholdMeasure.PredatorsPerMite, plant.Species, client),
            DamageInSight = thresholds.For(ThresholdMeasure.DamageInSight, plant.Species, client),
        };
    }

    /// <summary>A care entry of the record.</summary>
    public static CareDone CareOf(CareEntry entry) => new(entry.DoneOn, entry.What, entry.Note) { Active = entry.Details.Active, ModeGroup = entry.Details.ModeGroup };

    // The verdict's own rules for "new damage" and "no new damage", asked of the last weeks.
    private static bool? Rising(PlantHistory history, HistoryVisit[] visits, DateOnly today)
    {
        HistoryVisit[] recent = [.. visits.Where(visit => today.DayNumber - visit.Day.DayNumber <= DaysOfLeaves)];
        return CareVerdict.Judge(history with { Visits = recent }).Word switch
        {
            VerdictWord.NewDamage => true,
            VerdictWord.NoNewDamage => false,
            _ => null,
        };
    }

    private static bool? Clean(HistoryVisit? last)
    {
        double[] fresh = [.. (last?.Leaves ?? []).Where(leaf => leaf.Age == LeafAge.NewGrowth).Select(leaf => leaf.Damage)];
        return fresh.Length < NewLeavesLeast ? null : fresh.Average() < CleanBelow;
    }

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
