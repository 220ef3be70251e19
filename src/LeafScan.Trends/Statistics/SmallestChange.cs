using MathNet.Numerics.Distributions;

namespace LeafScan.Trends.Statistics;

/// <summary>
/// What two samples could have shown: the change that a two-sided interval would find with a wanted chance, and the leaves it
/// takes. The usual sum of two Student values times the standard error, degrees of freedom after Satterthwaite; a
/// near form of the exact non-central t, good to a few per cent from five values on.
/// </summary>
public static class SmallestChange
{
    /// <summary>Usual chance of finding a change that is there.</summary>
    public const double UsualPower = 0.8;

    private const int CountMost = 100_000;

    /// <summary>Smallest change that samples of this spread and size would show.</summary>
    /// <param name="earlierSd">Standard deviation of the first sample, 0 or more.</param>
    /// <param name="earlierCount">Its size, at least 2.</param>
    /// <param name="laterSd">Standard deviation of the second sample.</param>
    /// <param name="laterCount">Its size, at least 2.</param>
    /// <param name="level">Level of trust of the interval, between 0 and 1.</param>
    /// <param name="power">Wanted chance, between 0.5 and 1.</param>
    public static double Of(double earlierSd, int earlierCount, double laterSd, int laterCount, double level, double power = UsualPower)
    {
        Check(level, power);
        ArgumentOutOfRangeException.ThrowIfLessThan(earlierCount, 2);
        ArgumentOutOfRangeException.ThrowIfLessThan(laterCount, 2);
        double first = earlierSd * earlierSd / earlierCount;
        double second = laterSd * laterSd / laterCount;
        double sum = first + second;
        return sum > 0
            ? Times((sum * sum) / ((first * first / (earlierCount - 1)) + (second * second / (laterCount - 1))), level, power) * Math.Sqrt(sum)
            : 0;
    }

    /// <summary>Smallest mean change that pairs of this spread would show.</summary>
    /// <param name="differenceSd">Standard deviation of the differences, 0 or more.</param>
    /// <param name="count">Pairs, at least 2.</param>
    /// <param name="level">Level of trust of the interval, between 0 and 1.</param>
    /// <param name="power">Wanted chance, between 0.5 and 1.</param>
    public static double OfPairs(double differenceSd, int count, double level, double power = UsualPower)
    {
        Check(level, power);
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 2);
        return Times(count - 1, level, power) * differenceSd / Math.Sqrt(count);
    }

    /// <summary>Values needed in each of two samples of equal size for a change to show.</summary>
    /// <param name="change">The change, other than 0; its sign does not matter.</param>
    /// <param name="earlierSd">Standard deviation of the first sample.</param>
    /// <param name="laterSd">Standard deviation of the second sample.</param>
    /// <param name="level">Level of trust of the interval, between 0 and 1.</param>
    /// <param name="power">Wanted chance, between 0.5 and 1.</param>
    /// <returns>Null, "cannot say", for a change of 0 or one that would take more than 100,000.</returns>
    public static int? CountFor(double change, double earlierSd, double laterSd, double level, double power = UsualPower)
        => Fewest(change, count => Of(earlierSd, count, laterSd, count, level, power));

    /// <summary>Pairs needed for a mean change to show.</summary>
    /// <param name="change">The change, other than 0.</param>
    /// <param name="differenceSd">Standard deviation of the differences.</param>
    /// <param name="level">Level of trust of the interval, between 0 and 1.</param>
    /// <param name="power">Wanted chance, between 0.5 and 1.</param>
    /// <returns>Null as for <see cref="CountFor"/>.</returns>
    public static int? PairsFor(double change, double differenceSd, double level, double power = UsualPower)
        => Fewest(change, count => OfPairs(differenceSd, count, level, power));

    // The smallest change falls as samples grow.
    private static int? Fewest(double change, Func<int, double> smallest)
    {
        double wanted = Math.Abs(change);
        if (!(wanted > 0) || smallest(CountMost) > wanted)
        {
            return null;
        }

        int low = 2;
        int high = CountMost;
        while (low < high)
        {
            int middle = (low + high) / 2;
            (low, high) = smallest(middle) <= wanted ? (low, middle) : (middle + 1, high);
        }

        return low;
    }

    private static double Times(double freedom, double level, double power)
        => StudentT.InvCDF(0, 1, freedom, (1 + level) / 2) + StudentT.InvCDF(0, 1, freedom, power);

    private static void Check(double level, double power)
    {
        Interval.CheckLevel(level);
        if (!(power is >= 0.5 and < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(power), power, "A wanted chance lies between 0.5 and 1, such as 0.8.");
        }
    }
}
