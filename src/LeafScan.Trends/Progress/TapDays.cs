using LeafScan.Records;

namespace LeafScan.Trends.Progress;

/// <summary>One day with taps in a series.</summary>
/// <param name="Day">Day.</param>
/// <param name="TapCount">Taps on that day.</param>
/// <param name="MitesATap">Mean live mites of a tapped branch; a sheet over which several were struck counts for as many.</param>
/// <param name="MiteDays">Mite-days since the first day with taps, up to this one; 0 on the first.</param>
public sealed record TapDay(DateOnly Day, int TapCount, double MitesATap, double MiteDays)
{
    /// <summary>Days with taps and how mite-days added up (<see cref="Progress.MiteDays"/>), oldest first. Between two days mites are taken to change evenly.</summary>
    /// <param name="taps">Taps of one plant, or of a group that is tapped as one.</param>
    public static IReadOnlyList<TapDay> Of(IEnumerable<TapOnRecord> taps)
    {
        (DateOnly Day, int Count, double Mean)[] days =
            [.. taps.GroupBy(tap => tap.Tap.Day).OrderBy(day => day.Key).Select(day => (day.Key, day.Count(), TapOnRecord.MitesABranch(day)))];
        IReadOnlyList<double> running = days.Length == 0 ? [] : Progress.MiteDays.Running([.. days.Select(day => day.Day)], [.. days.Select(day => day.Mean)]);
        return [.. days.Select((day, i) => new TapDay(day.Day, day.Count, day.Mean, running[i]))];
    }
}
