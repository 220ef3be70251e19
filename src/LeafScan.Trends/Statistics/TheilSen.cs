using MathNet.Numerics.Distributions;

namespace LeafScan.Trends.Statistics;

/// <summary>
/// Slope as the median of the slopes of all pairs (Theil 1950; Sen 1968, J. Am. Stat. Assoc. 63:1379-1389): one bad visit
/// hardly moves it. The interval takes the ranks from the variance of Mann-Kendall's S, with ties, between ranks in a straight
/// line. It exists only where those ranks do: at 90 % from five visits on.
/// </summary>
/// <param name="Count">Number of values.</param>
/// <param name="Slope">Change for one unit of time.</param>
/// <param name="Intercept">Median of the values less slope times time: the level at time 0.</param>
/// <param name="SlopeInterval">Interval of the slope; null, "cannot say", when there are too few values.</param>
public sealed record TheilSen(int Count, double Slope, double Intercept, Interval? SlopeInterval)
{
    /// <summary>Fits the line.</summary>
    /// <param name="times">Times, such as days since the first visit: dates, not numbers of visits.</param>
    /// <param name="values">Values at these times, as many.</param>
    /// <param name="level">Level of trust of the interval, between 0 and 1.</param>
    /// <returns>Null, "cannot say", when there are no two different times.</returns>
    public static TheilSen? Of(IReadOnlyList<double> times, IReadOnlyList<double> values, double level)
    {
        Interval.CheckLevel(level);
        if (times.Count != values.Count)
        {
            throw new ArgumentException($"{values.Count} values cannot be paired with {times.Count} times.", nameof(values));
        }

        List<double> slopes = [];
        for (int later = 1; later < values.Count; later++)
        {
            for (int earlier = 0; earlier < later; earlier++)
            {
                double time = times[later] - times[earlier];
                if (time != 0)
                {
                    slopes.Add((values[later] - values[earlier]) / time);
                }
            }
        }

        if (slopes.Count == 0)
        {
            return null;
        }

        double[] sorted = [.. slopes.Order()];
        double slope = Sample.Quantile(sorted, 0.5);
        double[] levels = [.. values.Select((value, at) => value - (slope * times[at])).Order()];
        return new TheilSen(values.Count, slope, Sample.Quantile(levels, 0.5), IntervalOf(sorted, values, level));
    }

    private static Interval? IntervalOf(double[] sorted, IReadOnlyList<double> values, double level)
    {
        if (MannKendall.Of(values) is not { } trend)
        {
            return null;
        }

        double reach = Normal.InvCDF(0, 1, (1 + level) / 2) * Math.Sqrt(trend.VarianceOfS);
        double low = (sorted.Length - reach) / 2;
        return low < 1 ? null : new Interval(AtRank(sorted, low), AtRank(sorted, sorted.Length + 1 - low), level);
    }

    // Ranks are counted from 1.
    private static double AtRank(double[] sorted, double rank)
    {
        double at = Math.Clamp(rank - 1, 0, sorted.Length - 1);
        int below = (int)at;
        int above = Math.Min(below + 1, sorted.Length - 1);
        return sorted[below] + ((at - below) * (sorted[above] - sorted[below]));
    }
}
