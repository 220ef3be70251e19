using LeafScan.Trends.Statistics;
using MathNet.Numerics.Distributions;

namespace LeafScan.Trends.Sampling;

/// <summary>
/// Mean of counts, such as mites per tap, with an interval. Where counts vary no more than by chance the interval is Poisson's
/// exact one (Garwood 1936, Biometrika 28:437-442); where they are clumped, the negative binomial's by the delta method on
/// the logarithm with Student's t. Whether they are clumped is asked of the index of dispersion, (n-1)s²/m against chi-square, at
/// p under 0.1 (our own choice). The interval is never narrower than Poisson's.
/// </summary>
/// <param name="UnitCount">Units counted, such as tapped branches.</param>
/// <param name="Total">Sum of the counts.</param>
/// <param name="Mean">Mean of a unit.</param>
/// <param name="Interval">Interval of the mean.</param>
/// <param name="K">Clumping of the negative binomial, small for strongly clumped; null where counts vary as by chance.</param>
public sealed record CountMean(int UnitCount, long Total, double Mean, Interval Interval, double? K)
{
    /// <summary>Counts there were: fewer than units where several units were counted together, such as three branches over one sheet.</summary>
    public int SampleCount { get; init; } = UnitCount;

    /// <summary>True when there is one count alone: it cannot show how clumped mites are, so the interval is too narrow.</summary>
    public bool IsSingle => SampleCount == 1;

    /// <summary>Mean of counts.</summary>
    /// <param name="counts">One count a unit, 0 or more, at least one unit.</param>
    /// <param name="level">Level of trust, between 0 and 1.</param>
    public static CountMean Of(IReadOnlyList<int> counts, double level) => Of(counts, null, level);

    /// <summary>Mean of a unit where some counts are of several units together, which are taken to differ as units counted one by one do.</summary>
    /// <param name="counts">Counts, 0 or more, at least one.</param>
    /// <param name="units">Units under each count, 1 or more; null for one each.</param>
    /// <param name="level">Level of trust, between 0 and 1.</param>
    public static CountMean Of(IReadOnlyList<int> counts, IReadOnlyList<int>? units, double level)
    {
        Interval.CheckLevel(level);
        ArgumentOutOfRangeException.ThrowIfLessThan(counts.Count, 1, nameof(counts));
        if (counts.Any(count => count < 0))
        {
            throw new ArgumentOutOfRangeException(nameof(counts), "A count is 0 or more.");
        }

        if (units is not null && (units.Count != counts.Count || units.Any(unit => unit < 1)))
        {
            throw new ArgumentOutOfRangeException(nameof(units), "Each count is of one unit or more.");
        }

        long total = counts.Sum(count => (long)count);
        int all = units?.Sum() ?? counts.Count;
        double mean = (double)total / all;
        Interval poisson = Poisson(total, all, level);
        if (Clumping(counts, units, mean) is not { } k)
        {
            return new CountMean(all, total, mean, poisson, null) { SampleCount = counts.Count };
        }

        double error = Math.Sqrt(((1 / mean) + (1 / k)) / all);
        double times = Math.Exp(StudentT.InvCDF(0, 1, counts.Count - 1, (1 + level) / 2) * error);
        return new CountMean(all, total, mean, poisson.Cover(mean / times, mean * times), k) { SampleCount = counts.Count };
    }

    /// <summary>Exact interval of a mean whose counts vary by chance alone.</summary>
    /// <param name="total">Sum of the counts, 0 or more.</param>
    /// <param name="units">Units counted, at least 1.</param>
    /// <param name="level">Level of trust, between 0 and 1.</param>
    public static Interval Poisson(long total, int units, double level)
    {
        Interval.CheckLevel(level);
        ArgumentOutOfRangeException.ThrowIfNegative(total);
        ArgumentOutOfRangeException.ThrowIfLessThan(units, 1);
        double tail = (1 - level) / 2;
        double low = total == 0 ? 0 : ChiSquared.InvCDF(2.0 * total, tail) / 2;
        double high = ChiSquared.InvCDF((2.0 * total) + 2, 1 - tail) / 2;
        return new Interval(low / units, high / units, level);
    }

    // By moments: variance of a unit = m + m²/k. A count of u units varies u times as much about u times the mean.
    private static double? Clumping(IReadOnlyList<int> counts, IReadOnlyList<int>? units, double mean)
    {
        if (counts.Count < 2 || mean == 0)
        {
            return null;
        }

        double squares = 0;
        for (int i = 0; i < counts.Count; i++)
        {
            int unit = units?[i] ?? 1;
            double distance = counts[i] - (mean * unit);
            squares += distance * distance / unit;
        }

        double variance = squares / (counts.Count - 1);
        double index = (counts.Count - 1) * variance / mean;
        return variance > mean && 1 - ChiSquared.CDF(counts.Count - 1, index) < 0.1 ? mean * mean / (variance - mean) : null;
    }
}
