namespace LeafScan.Trends.Statistics;

/// <summary>
/// Limits of agreement of two methods (Bland and Altman 1986, The Lancet 327:307-310): between which most differences of
/// single measurements lie. The paper takes two standard deviations, most later software 1.96; say which.
/// </summary>
/// <param name="Count">Number of pairs.</param>
/// <param name="Bias">Mean of measured minus true.</param>
/// <param name="DifferenceSd">Standard deviation of the differences, divisor n - 1.</param>
public sealed record BlandAltman(int Count, double Bias, double DifferenceSd)
{
    /// <summary>Multiplier of the 1986 paper.</summary>
    public const double TwoSd = 2;

    /// <summary>Multiplier of most later software: the normal value for 95 %.</summary>
    public const double NormalSd = 1.96;

    /// <summary>Standard error of the bias.</summary>
    public double BiasStandardError => DifferenceSd / Math.Sqrt(Count);

    /// <summary>Compares measured values with true ones (or with another method's).</summary>
    /// <param name="measured">Measured values.</param>
    /// <param name="truth">True values, pair by pair; as many, at least two.</param>
    public static BlandAltman Of(IReadOnlyList<double> measured, IReadOnlyList<double> truth)
    {
        if (measured.Count != truth.Count)
        {
            throw new ArgumentException($"{measured.Count} measured values cannot be paired with {truth.Count} true ones.", nameof(truth));
        }

        ArgumentOutOfRangeException.ThrowIfLessThan(measured.Count, 2, nameof(measured));
        double[] differences = [.. measured.Zip(truth, (first, second) => first - second)];
        return new BlandAltman(differences.Length, Sample.Mean(differences), Math.Sqrt(Sample.Variance(differences)));
    }

    /// <summary>The limits, lower and upper.</summary>
    /// <param name="multiplier"><see cref="NormalSd"/> (default) or <see cref="TwoSd"/>.</param>
    public (double Lower, double Upper) Limits(double multiplier = NormalSd)
        => (Bias - (multiplier * DifferenceSd), Bias + (multiplier * DifferenceSd));
}
