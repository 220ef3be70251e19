using LeafScan.Trends.Statistics;

namespace LeafScan.Trends.Sampling;

/// <summary>What "none found" still allows. Zero is data: none of 20 leaves leaves room for up to 16 % of all (Wilson, 95 %).</summary>
public static class NoneFound
{
    /// <summary>Upper end of Wilson's interval for 0 of n.</summary>
    /// <param name="count">Units looked at, at least 1.</param>
    /// <param name="level">Level of trust of the two-sided interval, between 0 and 1.</param>
    public static double UpperLimit(int count, double level) => WilsonInterval.Of(0, count, level).High;

    /// <summary>Fewest units of which none may have mites for a share to be ruled out.</summary>
    /// <param name="share">Share to rule out, between 0 and 1.</param>
    /// <param name="level">Level of trust of the two-sided interval, between 0 and 1.</param>
    public static int UnitsToRuleOut(double share, double level)
    {
        if (!(share is > 0 and < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(share), share, "A share to rule out lies between 0 and 1.");
        }

        // Wilson's upper end for none is z²/(n + z²).
        double z2 = UpperLimit(1, level) / (1 - UpperLimit(1, level));
        return Math.Max(1, (int)Math.Ceiling((z2 * (1 - share) / share) - 1e-9));
    }
}
