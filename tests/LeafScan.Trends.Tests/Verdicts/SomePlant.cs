using LeafScan.Records;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Trends.Tests.Verdicts;

/// <summary>Builds histories, so that a test shows only what matters.</summary>
internal static class SomePlant
{
    /// <summary>Well before the season in which warm mites crash.</summary>
    public static readonly DateOnly Care = new(2026, 6, 15);

    /// <summary>Ten tagged leaves that differ from one another and go on together: damage of the middle leaf by day after the care.</summary>
    public static IReadOnlyList<HistoryVisit> Visits(params (int Day, double Damage)[] visits) => Visits(true, visits);

    public static IReadOnlyList<HistoryVisit> Visits(bool isTagged, params (int Day, double Damage)[] visits)
        =>
        [
            .. visits.Select(visit => new HistoryVisit(Care.AddDays(visit.Day),
            [
                .. Enumerable.Range(0, 10).Select(i => Leaf(visit.Damage * (0.6 + (0.08 * i)), isTagged ? $"leaf {i}" : null)),
            ])),
        ];

    public static HistoryLeaf Leaf(double damage, string? tag, LeafAge age = LeafAge.Old)
        => new(damage, Math.Max(0, damage - 0.02), Math.Min(1, damage + 0.02), damage, age, tag);

    /// <summary>Three taps a day, each with this many live mites.</summary>
    public static IReadOnlyList<HistoryTap> Taps(params (int Day, int Mites)[] days)
        => [.. days.SelectMany(day => Enumerable.Repeat(new HistoryTap(Care.AddDays(day.Day), day.Mites, 10), 3))];

    public static IReadOnlyList<HistoryCare> Rinses(params int[] days) => [.. days.Select(day => new HistoryCare(Care.AddDays(day), CareKind.Rinse))];

    /// <summary>Three points a week before the rinse; what comes since is given.</summary>
    public static PlantHistory Rinsed(double aWeekSince, DateOnly? care = null) => Moved(new PlantHistory
    {
        Name = "B1",
        Calendar = MiteCalendar.Warm,
        Visits = Visits((-14, 0.03), (-7, 0.06), (0, 0.09), (7, 0.09 + aWeekSince), (14, 0.09 + (2 * aWeekSince)), (21, 0.09 + (3 * aWeekSince))),
        Care = Rinses(0, 3, 7),
    }, care);

    /// <summary>The same history at another time of the year.</summary>
    public static PlantHistory Moved(PlantHistory plant, DateOnly? care)
    {
        int days = (care ?? Care).DayNumber - Care.DayNumber;
        return plant with
        {
            Visits = [.. plant.Visits.Select(visit => visit with { Day = visit.Day.AddDays(days) })],
            Taps = [.. plant.Taps.Select(tap => tap with { Day = tap.Day.AddDays(days) })],
            Care = [.. plant.Care.Select(entry => entry with { Day = entry.Day.AddDays(days) })],
            CheckPlants = [.. plant.CheckPlants.Select(check => Moved(check, care))],
        };
    }
}
