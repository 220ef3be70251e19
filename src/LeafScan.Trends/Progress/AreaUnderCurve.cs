namespace LeafScan.Trends.Progress;

/// <summary>
/// Areas under a curve of damage or of mites over time by straight lines between visits. They say how much was borne
/// altogether, where the last visit alone says only where it ended.
/// </summary>
public static class AreaUnderCurve
{
    /// <summary>
    /// Area under the progress curve (AUDPC): sum of mean value times days between visits. Mites per leaf give
    /// cumulative mite-days, damage in % gives %-days.
    /// </summary>
    /// <param name="days">Days of the visits, rising.</param>
    /// <param name="values">Values on these days, as many.</param>
    /// <returns>Null, "cannot say", for fewer than two visits.</returns>
    /// <exception cref="ArgumentException">The days do not rise or the lists are not of equal length.</exception>
    public static double? Of(IReadOnlyList<double> days, IReadOnlyList<double> values)
        => Running(days, values) is { Count: > 1 } running ? running[^1] : null;

    /// <summary>The area up to each visit; 0 at the first. For cumulative mite-days beside the damage series.</summary>
    /// <param name="days">Days of the visits, rising.</param>
    /// <param name="values">Values on these days, as many.</param>
    public static IReadOnlyList<double> Running(IReadOnlyList<double> days, IReadOnlyList<double> values)
    {
        Check(days, values);
        var running = new double[days.Count];
        for (int i = 1; i < running.Length; i++)
        {
            running[i] = running[i - 1] + ((values[i] + values[i - 1]) / 2 * (days[i] - days[i - 1]));
        }

        return running;
    }

    /// <summary>The area as a share of what a full value on all days would give.</summary>
    /// <param name="days">Days of the visits, rising.</param>
    /// <param name="values">Values on these days.</param>
    /// <param name="full">Greatest possible value: 100 for %, 1 for shares.</param>
    /// <returns>Null for fewer than two visits.</returns>
    public static double? Relative(IReadOnlyList<double> days, IReadOnlyList<double> values, double full)
        => Of(days, values) / (full * (days.Count > 1 ? days[^1] - days[0] : double.NaN));

    /// <summary>
    /// Area with first and last visit given their full weight (AUDPS; Simko and Piepho 2012, Phytopathology
    /// 102:381-389): AUDPC plus (first + last)/2 times days/(visits - 1).
    /// </summary>
    /// <param name="days">Days of the visits, rising.</param>
    /// <param name="values">Values on these days.</param>
    /// <returns>Null for fewer than two visits.</returns>
    public static double? Stairs(IReadOnlyList<double> days, IReadOnlyList<double> values)
        => Of(days, values) is { } area ? area + ((values[0] + values[^1]) / 2 * (days[^1] - days[0]) / (days.Count - 1)) : null;

    /// <summary>AUDPS as a share of what a full value would give over visits/(visits - 1) times the days.</summary>
    /// <param name="days">Days of the visits, rising.</param>
    /// <param name="values">Values on these days.</param>
    /// <param name="full">Greatest possible value: 100 for %, 1 for shares.</param>
    /// <returns>Null for fewer than two visits.</returns>
    public static double? StairsRelative(IReadOnlyList<double> days, IReadOnlyList<double> values, double full)
        => Stairs(days, values) / (full * (days.Count > 1 ? (days[^1] - days[0]) * days.Count / (days.Count - 1) : double.NaN));

    private static void Check(IReadOnlyList<double> days, IReadOnlyList<double> values)
    {
        if (days.Count != values.Count)
        {
            throw new ArgumentException($"{values.Count} values cannot be paired with {days.Count} days.", nameof(values));
        }

        for (int i = 1; i < days.Count; i++)
        {
            if (!(days[i] > days[i - 1]))
            {
                throw new ArgumentException("Days must rise from visit to visit; put visits of one day together first.", nameof(days));
            }
        }
    }
}
