namespace LeafScan.Trends.Verdicts;

/// <summary>Visits in order.</summary>
internal static class Visits
{
    /// <summary>Oldest first, one a day, none without leaves.</summary>
    public static HistoryVisit[] ByDay(IEnumerable<HistoryVisit> visits)
        =>
        [
            .. visits.Where(visit => visit.Leaves.Count > 0).GroupBy(visit => visit.Day).OrderBy(day => day.Key)
                .Select(day => new HistoryVisit(day.Key, [.. day.SelectMany(visit => visit.Leaves)])),
        ];
}
