using LeafScan.Records;

namespace LeafScan.Trends.Verdicts;

/// <summary>Makes the plain history of a plant from what the record holds.</summary>
public static class RecordHistory
{
    private const int SeasonDays = 60;

    /// <summary>Puts a history together.</summary>
    /// <param name="plant">The plant.</param>
    /// <param name="leaves">Its leaves on record; those that series leave out are left out here too.</param>
    /// <param name="care">Its care entries.</param>
    /// <param name="checks">Histories of plants that were left untreated beside it.</param>
    /// <param name="options">Which leaves count; null for the defaults.</param>
    /// <param name="taps">Its taps; null for none.</param>
    /// <param name="weather">Weather of its place; null for none.</param>
    public static PlantHistory Of(
        Plant plant, IEnumerable<LeafOnRecord> leaves, IEnumerable<CareEntry> care, IReadOnlyList<PlantHistory> checks, TrendOptions? options = null,
        IEnumerable<TapOnRecord>? taps = null, IEnumerable<WeatherDay>? weather = null)
    {
        options = TrendOptions.OrUsual(options);
        LeafOnRecord[] all = [.. leaves];
        return new PlantHistory
        {
            Name = plant.Code,
            Kind = all.Length > 0 ? all[0].Kind : "leaf",
            Calendar = CalendarOf(plant),
            Visits =
            [
                .. all.Where(leaf => LeafFigures.Counts(leaf, options)).GroupBy(leaf => leaf.WalkedOn)
                    .Select(day => new HistoryVisit(day.Key, [.. day.Select(Leaf)])),
            ],
            Taps = [.. (taps ?? []).Select(tap => new HistoryTap(tap.Tap.Day, tap.LiveMites, tap.Tap.Strikes, tap.Tap.Predators, tap.Tap.HoursSinceWet) { Branches = tap.BranchCount })],
            Care = [.. care.Select(entry => new HistoryCare(entry.DoneOn, entry.What))],
            Weather = [.. (weather ?? []).Select(day => new HistoryWeather(day.Day, day.LowC, day.HighC))],
            CheckPlants = checks,
        };
    }

    /// <summary>When the plant's mites feed: as the person said, else by the species.</summary>
    public static MiteCalendar CalendarOf(Plant plant) => plant.Facts.Season switch
    {
        MiteSeason.Warm => MiteCalendar.Warm,
        MiteSeason.Cool => MiteCalendar.Cool,
        MiteSeason.Boxwood => MiteCalendar.Boxwood,
        _ => QuietSeason.CalendarOf(plant.Species),
    };

    /// <summary>
    /// Whether a plant serves as a check on another: same place, same species, marked as left untreated or left alone on purpose (a
    /// care entry "nothing"), and nothing else done to it since the first treatment of the other within a season.
    /// </summary>
    /// <param name="plant">The plant that is judged.</param>
    /// <param name="care">Its care.</param>
    /// <param name="other">The plant beside it.</param>
    /// <param name="otherCare">Its care.</param>
    public static bool IsCheck(Plant plant, IReadOnlyList<CareEntry> care, Plant other, IReadOnlyList<CareEntry> otherCare)
    {
        if (other.Id == plant.Id || other.PlaceId != plant.PlaceId || plant.Species is null || !string.Equals(plant.Species, other.Species, StringComparison.OrdinalIgnoreCase))
        {
            return false;
        }

        CareEntry[] treated = [.. care.Where(entry => entry.What != CareKind.Nothing)];
        if (treated.Length == 0)
        {
            return false;
        }

        DateOnly last = treated.Max(entry => entry.DoneOn);
        bool isMarked = other.Facts.IsCheck || otherCare.Any(entry => entry.What == CareKind.Nothing && Math.Abs(entry.DoneOn.DayNumber - last.DayNumber) <= SeasonDays);
        return isMarked && otherCare.All(entry => entry.What == CareKind.Nothing || last.DayNumber - entry.DoneOn.DayNumber > SeasonDays);
    }

    private static HistoryLeaf Leaf(LeafOnRecord leaf) => new(
        leaf.Damage, leaf.DamageLow, leaf.DamageHigh, leaf.Shares.Stippled,
        leaf.Age switch
        {
            LeafGrowth.Old => LeafAge.Old,
            LeafGrowth.New => LeafAge.NewGrowth,
            _ => LeafAge.Unknown,
        },
        leaf.Tag);
}
