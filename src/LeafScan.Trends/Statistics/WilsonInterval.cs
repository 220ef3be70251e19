using MathNet.Numerics.Distributions;

namespace LeafScan.Trends.Statistics;

/// <summary>
/// Wilson's score interval for a share of counted things (Wilson 1927, J. Am. Stat. Assoc. 22:209-212; method 3 of
/// Newcombe 1998, Statistics in Medicine 17:857-872). It stays inside 0..1, and none of 20 still leaves room for many.
/// </summary>
public static class WilsonInterval
{
    /// <summary>The interval for <paramref name="hits"/> of <paramref name="count"/>.</summary>
    /// <param name="hits">How many were so, 0 to <paramref name="count"/>.</param>
    /// <param name="count">How many were looked at, at least 1.</param>
    /// <param name="level">Level of trust, between 0 and 1.</param>
    public static Interval Of(int hits, int count, double level)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        ArgumentOutOfRangeException.ThrowIfNegative(hits);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(hits, count);
        return OfShare((double)hits / count, count, level);
    }

    /// <summary>
    /// The interval for a share with a count that need not be whole: things that come in clumps, such as leaves of one plant, tell less than
    /// their number says (Kish 1965, Survey Sampling: divide by the design effect).
    /// </summary>
    /// <param name="share">Share, 0..1.</param>
    /// <param name="count">How many independent things it is worth, above 0.</param>
    /// <param name="level">Level of trust, between 0 and 1.</param>
    public static Interval OfShare(double share, double count, double level)
    {
        Interval.CheckLevel(level);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(count);
        if (!(share is >= 0 and <= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(share), share, "A share lies between 0 and 1.");
        }

        double z = Normal.InvCDF(0, 1, (1 + level) / 2);
        double spread = z * Math.Sqrt((share * (1 - share) / count) + (z * z / (4.0 * count * count)));
        double middle = share + (z * z / (2 * count));
        double scale = 1 + (z * z / count);

        // At the ends the exact values are 0 and 1; rounding would miss them by a hair.
        double low = share == 0 ? 0 : (middle - spread) / scale;
        double high = share == 1 ? 1 : (middle + spread) / scale;
        return new Interval(low, high, level);
    }
}
