using LeafScan.Trends.Statistics;
using MathNet.Numerics.Distributions;

namespace LeafScan.Trends.Sampling;

/// <summary>
/// Mean of counts, such as mites per tap, with an interval. Where counts vary no more than by chance the interval is Poisson's
/// exact one (Garwood 1936, Biometrika 28:437-442); where they are clumped, the negative binomial's by the delta method on
/// the logarithm with Student's t. Whether they are clumped is asked of the index of dispersion, (n-1)s²/m against chi-square, at
/// p under 0.1 (our own choice). The interval is never narrower than Poisson's.
/// </summary>
/// <param name="UnitCount">Units counted.</param>
/// <param name="Total">Sum of the counts.</param>
/// <param name="Mean">Mean of a unit.</param>
/// <param name="Interval">Interval of the mean.</param>
/// <param name="K">Clumping of the negative binomial, small for strongly clumped; null where counts vary as by chance.</param>
public sealed record CountMean(int UnitCount, long Total, double Mean, Interval Interval, double? K)
{
    /// <summary>True when one unit alone was counted: it cannot show how clumped mites are, so the interval is too narrow.</summary>
    public bool IsSingle => UnitCount == 1;

    /// <summary>Mean of counts.</summary>
    /// <param name="counts">One count a unit, 0 or more, at least one unit.</param>
    /// <param name="level">Level of trust, between 0 and 1.</param>
    public static CountMean Of(IReadOnlyList<int> counts, double level)
    {
        Interval.CheckLevel(level);
        ArgumentOutOfRangeException.ThrowIfLessThan(counts.Count, 1, nameof(counts));
        if (counts.Any(count => count < 0))
        {
            throw new ArgumentOutOfRangeException(nameof(counts), "A count is 0 or more.");
        }

        long total = counts.Sum(count => (long)count);
        double mean = (double)total / counts.Count;
        Interval poisson = Poisson(total, counts.Count, level);
        if (Clumping(counts, mean) is not { } k)
        {
            return new CountMean(counts.Count, total, mean, poisson, null);
        }

        double error = Math.Sqrt(((1 / mean) + (1 / k)) / counts.Count);
        double times = Math.Exp(StudentT.InvCDF(0, 1, counts.Count - 1, (1 + level) / 2) * error);
        return new CountMean(counts.Count, total, mean, poisson.Cover(mean / times, mean * times), k);
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

    // By moments: variance = m + m²/k.
    private static double? Clumping(IReadOnlyList<int> counts, double mean)
    {
        if (counts.Count < 2 || mean == 0)
        {
            return null;
        }

        double variance = Sample.Variance([.. counts.Select(count => (double)count)]);
        double index = (counts.Count - 1) * variance / mean;
        return variance > mean && 1 - ChiSquared.CDF(counts.Count - 1, index) < 0.1 ? mean * mean / (variance - mean) : null;
    }
}
