using MathNet.Numerics.Distributions;

namespace LeafScan.Trends.Statistics;

/// <summary>
/// Student's t interval of a mean (Student 1908, Biometrika 6:1-25). For fewer than <see cref="FewValues"/> values
/// drawing again cannot reach far enough, because no resample lies beyond the sample's own ends: in a simulation of normal
/// samples 90 % intervals by widened drawing held the true mean 59 % of the time for 2 values, 81 % for 3, 87 % for 5 and
/// 88 to 90 % from 8 on.
/// </summary>
public static class StudentMean
{
    /// <summary>Below this many values the t interval is used beside drawing again.</summary>
    public const int FewValues = 5;

    /// <summary>The interval.</summary>
    /// <param name="values">The sample, at least two values.</param>
    /// <param name="level">Level of trust, between 0 and 1.</param>
    public static Interval Of(IReadOnlyList<double> values, double level)
    {
        Interval.CheckLevel(level);
        ArgumentOutOfRangeException.ThrowIfLessThan(values.Count, 2, nameof(values));
        double half = StudentT.InvCDF(0, 1, values.Count - 1, (1 + level) / 2) * Math.Sqrt(Sample.Variance(values) / values.Count);
        double mean = Sample.Mean(values);
        return new Interval(mean - half, mean + half, level);
    }
}
