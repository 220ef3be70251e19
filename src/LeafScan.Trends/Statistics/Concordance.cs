using MathNet.Numerics.Distributions;

namespace LeafScan.Trends.Statistics;

/// <summary>By what the sums of squares are divided.</summary>
public enum VarianceDivisor
{
    /// <summary>By n, as Lin 1989 does.</summary>
    Count,

    /// <summary>By n - 1, as much software does.</summary>
    CountMinusOne,
}

/// <summary>
/// Lin's concordance correlation coefficient: how well measurements fall on the line of equality (Lin 1989, Biometrics
/// 45:255-268). It is precision times accuracy, <c>Ccc = PearsonR * Cb</c>. It depends on the range of the sample: report
/// that and the number of pairs beside it.
/// </summary>
/// <param name="Count">Number of pairs.</param>
/// <param name="Divisor">Which divisor was used.</param>
/// <param name="Ccc">The coefficient, -1..1.</param>
/// <param name="PearsonR">Precision: how near to a straight line, -1..1.</param>
/// <param name="Cb">Accuracy (bias correction): how near that line is to equality, 0..1.</param>
/// <param name="ScaleShift">v: spread of the measured over spread of the true values; 1 is best.</param>
/// <param name="LocationShift">u: mean measured minus mean true, in units of the geometric mean spread; 0 is best.</param>
public sealed record Concordance(
    int Count, VarianceDivisor Divisor, double Ccc, double PearsonR, double Cb, double ScaleShift, double LocationShift)
{
    /// <summary>Compares measured values with true ones (or with another method's).</summary>
    /// <param name="measured">Measured values.</param>
    /// <param name="truth">True values, pair by pair; as many, at least two.</param>
    /// <param name="divisor">Divisor; default n as in Lin 1989.</param>
    /// <returns>Not-a-number parts where one of the two does not vary; the coefficient is then 0, or 1 when all pairs are equal.</returns>
    public static Concordance Of(IReadOnlyList<double> measured, IReadOnlyList<double> truth, VarianceDivisor divisor = VarianceDivisor.Count)
    {
        if (measured.Count != truth.Count)
        {
            throw new ArgumentException($"{measured.Count} measured values cannot be paired with {truth.Count} true ones.", nameof(truth));
        }

        ArgumentOutOfRangeException.ThrowIfLessThan(measured.Count, 2, nameof(measured));
        int count = measured.Count;
        double by = divisor == VarianceDivisor.Count ? count : count - 1;
        double meanMeasured = Sample.Mean(measured);
        double meanTruth = Sample.Mean(truth);
        double varianceMeasured = Sample.SquaresAboutMean(measured, meanMeasured) / by;
        double varianceTruth = Sample.SquaresAboutMean(truth, meanTruth) / by;
        double covariance = 0;
        for (int i = 0; i < count; i++)
        {
            covariance += (measured[i] - meanMeasured) * (truth[i] - meanTruth);
        }

        covariance /= by;
        double shift = meanMeasured - meanTruth;
        double below = varianceMeasured + varianceTruth + (shift * shift);
        double ccc = below > 0 ? 2 * covariance / below : 1;
        double r = covariance / Math.Sqrt(varianceMeasured * varianceTruth);
        double scaleShift = Math.Sqrt(varianceMeasured / varianceTruth);
        double locationShift = shift / Math.Sqrt(Math.Sqrt(varianceMeasured) * Math.Sqrt(varianceTruth));
        double cb = 2 / (scaleShift + (1 / scaleShift) + (locationShift * locationShift));
        return new Concordance(count, divisor, ccc, r, cb, scaleShift, locationShift);
    }

    /// <summary>
    /// Interval of the coefficient by Fisher's z with the variance of Lin 1989 as corrected in Biometrics 2000, 56:324-325.
    /// For values far from normal, bootstrap the pairs instead (<see cref="Bootstrap.PercentileOf"/>).
    /// </summary>
    /// <param name="level">Level of trust, between 0 and 1.</param>
    /// <returns>Null for fewer than three pairs or where the coefficient has no variance formula (r or the coefficient is 0 or ±1).</returns>
    public Interval? IntervalAt(double level)
    {
        Interval.CheckLevel(level);
        double c2 = Ccc * Ccc;
        double r2 = PearsonR * PearsonR;
        if (Count < 3 || !double.IsFinite(PearsonR) || r2 == 0 || c2 >= 1)
        {
            return null;
        }

        double u2 = LocationShift * LocationShift;
        double variance = (((1 - r2) * c2 / ((1 - c2) * r2))
            + (2 * c2 * Ccc * (1 - Ccc) * u2 / (PearsonR * (1 - c2) * (1 - c2)))
            - (c2 * c2 * u2 * u2 / (2 * r2 * (1 - c2) * (1 - c2)))) / (Count - 2);
        if (!(variance >= 0))
        {
            return null;
        }

        double half = Normal.InvCDF(0, 1, (1 + level) / 2) * Math.Sqrt(variance);
        return new Interval(Math.Tanh(Math.Atanh(Ccc) - half), Math.Tanh(Math.Atanh(Ccc) + half), level);
    }
}
