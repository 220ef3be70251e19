using LeafScan.Trends.Statistics;
using MathNet.Numerics.Distributions;

namespace LeafScan.Trends.Sampling;

/// <summary>How many units a sample takes. Results are not rounded; round up.</summary>
public static class SampleSizes
{
    /// <summary>Aim of pest control for standard error by mean; 0.10 is that of research.</summary>
    public const double UsualPrecision = 0.25;

    /// <summary>Units for a share with an interval of a half-width: z² p(1-p)/d².</summary>
    /// <param name="share">Expected share, 0..1.</param>
    /// <param name="halfWidth">Half of the wanted interval's width, more than 0.</param>
    /// <param name="level">Level of trust, between 0 and 1.</param>
    public static double ForShare(double share, double halfWidth, double level)
    {
        Interval.CheckLevel(level);
        return ForShareAt(share, halfWidth, Normal.InvCDF(0, 1, (1 + level) / 2));
    }

    /// <summary>The same with the normal value given, such as 1.96.</summary>
    /// <param name="share">Expected share, 0..1.</param>
    /// <param name="halfWidth">Half of the wanted interval's width, more than 0.</param>
    /// <param name="z">Normal value, more than 0.</param>
    public static double ForShareAt(double share, double halfWidth, double z)
    {
        if (!(share is >= 0 and <= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(share), share, "A share lies between 0 and 1.");
        }

        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(halfWidth);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(z);
        return z * z * share * (1 - share) / (halfWidth * halfWidth);
    }

    /// <summary>Units for a mean from mean and variance of a first sample: s²/(m² D²).</summary>
    /// <param name="mean">Mean, more than 0.</param>
    /// <param name="variance">Variance, 0 or more.</param>
    /// <param name="precision">D: standard error by mean.</param>
    public static double ForMean(double mean, double variance, double precision = UsualPrecision)
    {
        TaylorLaw.CheckMean(mean);
        ArgumentOutOfRangeException.ThrowIfNegative(variance);
        CheckPrecision(precision);
        return variance / (mean * mean * precision * precision);
    }

    /// <summary>Fewest units a mean can take: those of counts that vary by chance alone, 1/(m D²). Clumped mites take more.</summary>
    /// <param name="mean">Mean, more than 0.</param>
    /// <param name="precision">D: standard error by mean.</param>
    public static double ForMeanAtLeast(double mean, double precision = UsualPrecision) => ForMean(mean, mean, precision);

    internal static void CheckPrecision(double precision)
    {
        if (!(precision is > 0 and < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(precision), precision, "A precision lies between 0 and 1, such as 0.25.");
        }
    }
}
