namespace LeafScan.Trends.Sampling;

/// <summary>
/// Green's stop line for a mean of fixed precision (Green 1970): count unit by unit and stop when the running total reaches
/// the line. ln T = ln(D²/A)/(B-2) + ((B-1)/(B-2)) ln n. It estimates a mean; to decide for or against a threshold take <see cref="WaldPlan"/>.
/// </summary>
/// <param name="Law">How clumped the mites are.</param>
/// <param name="Precision">D: standard error by mean.</param>
public sealed record GreenStopLine(TaylorLaw Law, double Precision)
{
    /// <summary>Running total at which counting may stop after a number of units. The line falls as units grow, for B between 1 and 2.</summary>
    /// <param name="units">Units counted, at least 1.</param>
    /// <returns>Null, "cannot say", for B = 2: there the number of units alone decides (<see cref="TaylorLaw.Units"/>).</returns>
    public double? TotalAt(int units)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(units, 1);
        SampleSizes.CheckPrecision(Precision);
        if (Law.B == 2)
        {
            return null;
        }

        double ln = (Math.Log(Precision * Precision / Law.A) / (Law.B - 2)) + ((Law.B - 1) / (Law.B - 2) * Math.Log(units));
        return Math.Exp(ln);
    }
}
