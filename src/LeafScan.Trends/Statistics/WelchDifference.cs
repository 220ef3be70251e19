using MathNet.Numerics.Distributions;

namespace LeafScan.Trends.Statistics;

/// <summary>
/// Difference of two means without the assumption of equal spread (Welch 1947, Biometrika 34:28-35, degrees of freedom
/// after Satterthwaite 1946).
/// </summary>
/// <param name="Difference">Mean of the later sample minus mean of the earlier one.</param>
/// <param name="StandardError">Its standard error.</param>
/// <param name="DegreesOfFreedom">Degrees of freedom, not rounded.</param>
/// <param name="T">Difference in standard errors; infinite or not a number when nothing varies.</param>
/// <param name="PTwoSided">Probability of a difference at least as large when there is none.</param>
/// <param name="Interval">Interval of the difference.</param>
public sealed record WelchDifference(
    double Difference, double StandardError, double DegreesOfFreedom, double T, double PTwoSided, Interval Interval)
{
    /// <summary>Compares two samples.</summary>
    /// <param name="earlier">First sample, at least two values.</param>
    /// <param name="later">Second sample, at least two values.</param>
    /// <param name="level">Level of trust of the interval, between 0 and 1.</param>
    public static WelchDifference Of(IReadOnlyList<double> earlier, IReadOnlyList<double> later, double level)
    {
        Interval.CheckLevel(level);
        ArgumentOutOfRangeException.ThrowIfLessThan(earlier.Count, 2, nameof(earlier));
        ArgumentOutOfRangeException.ThrowIfLessThan(later.Count, 2, nameof(later));
        double difference = Sample.Mean(later) - Sample.Mean(earlier);
        double error = Math.Sqrt((Sample.Variance(earlier) / earlier.Count) + (Sample.Variance(later) / later.Count));
        double freedom = FreedomOf(earlier, later);
        double t = difference / error;
        double p = error > 0 ? 2 * StudentT.CDF(0, 1, freedom, -Math.Abs(t)) : (difference == 0 ? 1 : 0);
        double half = StudentT.InvCDF(0, 1, freedom, (1 + level) / 2) * error;
        return new WelchDifference(difference, error, freedom, t, p, new Interval(difference - half, difference + half, level));
    }

    internal static double FreedomOf(IReadOnlyList<double> earlier, IReadOnlyList<double> later)
    {
        double first = Sample.Variance(earlier) / earlier.Count;
        double second = Sample.Variance(later) / later.Count;
        double sum = first + second;

        // When nothing varies any number of degrees gives the same interval of no width.
        return sum > 0
            ? sum * sum / ((first * first / (earlier.Count - 1)) + (second * second / (later.Count - 1)))
            : earlier.Count + later.Count - 2;
    }
}
