using MathNet.Numerics.Distributions;

namespace LeafScan.Trends.Statistics;

/// <summary>
/// Mean of paired differences with Student's t interval (Student 1908). Leaves that were photographed on both days give a
/// far narrower answer than two fresh samples, because each leaf is its own measure.
/// </summary>
/// <param name="Count">Number of pairs.</param>
/// <param name="Difference">Mean of later minus earlier.</param>
/// <param name="DifferenceSd">Standard deviation of the differences, divisor n - 1.</param>
/// <param name="StandardError">Standard error of the mean.</param>
/// <param name="T">Difference in standard errors; infinite or not a number when nothing varies.</param>
/// <param name="PTwoSided">Probability of a difference at least as large when there is none.</param>
/// <param name="Interval">Interval of the mean difference.</param>
public sealed record PairedDifference(
    int Count, double Difference, double DifferenceSd, double StandardError, double T, double PTwoSided, Interval Interval)
{
    /// <summary>Compares pairs.</summary>
    /// <param name="differences">Later minus earlier, one a pair.</param>
    /// <param name="level">Level of trust of the interval, between 0 and 1.</param>
    /// <returns>Null, "cannot say", for fewer than two pairs.</returns>
    public static PairedDifference? Of(IReadOnlyList<double> differences, double level)
    {
        Interval.CheckLevel(level);
        if (differences.Count < 2)
        {
            return null;
        }

        double mean = Sample.Mean(differences);
        double sd = Math.Sqrt(Sample.Variance(differences));
        double error = sd / Math.Sqrt(differences.Count);
        double t = mean / error;
        double p = error > 0 ? 2 * StudentT.CDF(0, 1, differences.Count - 1, -Math.Abs(t)) : (mean == 0 ? 1 : 0);
        double half = StudentT.InvCDF(0, 1, differences.Count - 1, (1 + level) / 2) * error;
        return new PairedDifference(differences.Count, mean, sd, error, t, p, new Interval(mean - half, mean + half, level));
    }
}
