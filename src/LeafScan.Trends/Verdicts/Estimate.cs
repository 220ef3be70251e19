using LeafScan.Trends.Statistics;
using MathNet.Numerics.Distributions;

namespace LeafScan.Trends.Verdicts;

/// <summary>A figure with its standard error.</summary>
/// <param name="Value">The figure.</param>
/// <param name="Error">Standard error.</param>
/// <param name="Freedom">Degrees of freedom of the error; infinite when it is known.</param>
internal readonly record struct Estimate(double Value, double Error, double Freedom)
{
    /// <summary>Upper end that chance passes with no more than this risk, one-sided.</summary>
    public double Upper(double risk) => Value + (Times(risk) * Error);

    /// <summary>Lower end, one-sided.</summary>
    public double Lower(double risk) => Value - (Times(risk) * Error);

    /// <summary>Interval of 90 % trust.</summary>
    public Interval Interval() => new(Lower(0.05), Upper(0.05), 0.9);

    private double Times(double risk) => double.IsPositiveInfinity(Freedom)
        ? -Normal.InvCDF(0, 1, risk)
        : -StudentT.InvCDF(0, 1, Freedom, risk);
}
