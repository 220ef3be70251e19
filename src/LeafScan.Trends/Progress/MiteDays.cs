namespace LeafScan.Trends.Progress;

/// <summary>
/// Cumulative mite-days: mites per leaf (or per tap) summed over days. On burning bush the sum foretold discolouring
/// better than the peak did (Sadof and Alexander 1993, abstract; authors and year from memory).
/// </summary>
public static class MiteDays
{
    /// <summary>The sum up to each count; 0 at the first.</summary>
    /// <param name="days">Days of the counts, rising.</param>
    /// <param name="mites">Mites per leaf or per tap on these days.</param>
    public static IReadOnlyList<double> Running(IReadOnlyList<DateOnly> days, IReadOnlyList<double> mites)
        => AreaUnderCurve.Running([.. days.Select(day => (double)day.DayNumber)], mites);

    /// <summary>The whole sum; null, "cannot say", for fewer than two counts.</summary>
    /// <param name="days">Days of the counts, rising.</param>
    /// <param name="mites">Mites per leaf or per tap on these days.</param>
    public static double? Of(IReadOnlyList<DateOnly> days, IReadOnlyList<double> mites)
        => AreaUnderCurve.Of([.. days.Select(day => (double)day.DayNumber)], mites);
}
