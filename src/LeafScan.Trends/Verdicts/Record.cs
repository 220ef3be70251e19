namespace LeafScan.Trends.Verdicts;

/// <summary>How much was looked at, before and since the care. A visit is a day with leaves or with taps.</summary>
internal sealed record Record(int BeforeCount, int SinceCount, DateOnly? LastDaySince, int DaysSince, int TooLateCount)
{
    public int VisitCount => BeforeCount + SinceCount;

    public static Record Of(PlantHistory plant, IReadOnlyList<HistoryVisit> visits, CareWindow window, VerdictOptions options)
    {
        DateOnly[] days = [.. visits.Select(visit => visit.Day).Concat(plant.Taps.Select(tap => tap.Day)).Distinct().Order()];
        DateOnly[] since = [.. days.Where(day => day > window.FirstCare && day <= window.Until)];
        DateOnly? last = days.Length > 0 && days[^1] > window.FirstCare ? days[^1] : null;
        return new Record(
            days.Count(day => day <= window.FirstCare && day >= window.From),
            since.Count(day => day.DayNumber - window.FirstCare.DayNumber >= options.DaysUntilShown),
            last,
            last is { } day ? day.DayNumber - window.FirstCare.DayNumber : 0,
            days.Count(day => day > window.Until));
    }
}
