using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace LeafScan.Trends.Statistics;

/// <summary>
/// Mann-Kendall test for a trend in one direction (Mann 1945, Econometrica 13:245-259; Kendall 1975, Rank Correlation
/// Methods; ties as in US EPA QA/G-9S). Up to <see cref="ExactUpTo"/> values the probabilities are exact, ties included; above that they come from
/// the normal value with continuity correction. Three values can never reach 0.05, and four only when each lies above the one before.
/// </summary>
/// <param name="Count">Number of values.</param>
/// <param name="S">Pairs that rise minus pairs that fall.</param>
/// <param name="VarianceOfS">Variance of <paramref name="S"/> without a trend, corrected for ties; 0 when all values are equal.</param>
/// <param name="Z"><paramref name="S"/> drawn one towards 0, in standard deviations; 0 when all values are equal.</param>
/// <param name="IsExact">Whether the probabilities are exact.</param>
/// <param name="PRising">Probability of an S at least as high without a trend.</param>
/// <param name="PFalling">Probability of an S at most as high without a trend.</param>
/// <param name="PTwoSided">Probability of an S at least as far from 0 without a trend.</param>
public sealed record MannKendall(
    int Count, int S, double VarianceOfS, double Z, bool IsExact, double PRising, double PFalling, double PTwoSided)
{
    /// <summary>Most values for which probabilities are exact.</summary>
    public const int ExactUpTo = 10;

    /// <summary>Kendall's tau-a: S by the number of pairs, -1..1.</summary>
    public double TauA => S / (Count * (Count - 1) / 2.0);

    /// <summary>Tests values in the order of time. Put visits of one day together first.</summary>
    /// <param name="values">The values, oldest first.</param>
    /// <returns>Null, "cannot say", for fewer than three values.</returns>
    public static MannKendall? Of(IReadOnlyList<double> values)
    {
        int count = values.Count;
        if (count < 3)
        {
            return null;
        }

        int s = 0;
        for (int later = 1; later < count; later++)
        {
            for (int earlier = 0; earlier < later; earlier++)
            {
                s += Math.Sign(values[later] - values[earlier]);
            }
        }

        int[] ties = [.. values.GroupBy(value => value).Select(group => group.Count())];
        double variance = (Spread(count) - ties.Sum(Spread)) / 18;
        double z = variance > 0 ? (s - Math.Sign(s)) / Math.Sqrt(variance) : 0;
        if (count <= ExactUpTo)
        {
            (double atLeast, double atMost) = Exact(s, ties);
            return new MannKendall(count, s, variance, z, true, atLeast, atMost, Math.Min(1, 2 * Math.Min(atLeast, atMost)));
        }

        double upper = Tail(s, variance);
        double lower = Tail(-s, variance);
        return new MannKendall(count, s, variance, z, false, upper, lower, Math.Min(1, 2 * Normal.CDF(0, 1, -Math.Abs(z))));
    }

    /// <summary>
    /// Smallest two-sided probability that these values could give in whatever order: both of the two best orders, of which values that are
    /// equal make many alike, 2 t1! t2! ... / n!. A level below it can never be reached.
    /// </summary>
    /// <param name="values">The values, in any order.</param>
    public static double SmallestPTwoSided(IReadOnlyList<double> values)
    {
        double alike = values.GroupBy(value => value).Sum(group => SpecialFunctions.FactorialLn(group.Count()));
        return Math.Min(1, 2 * Math.Exp(alike - SpecialFunctions.FactorialLn(values.Count)));
    }

    /// <summary>Fewest values, all of them different, of which the exact two-sided probability can be as small as a level: four for 0.1, five for 0.05, six for 0.01.</summary>
    /// <param name="risk">The level, above 0 and below 1.</param>
    public static int LeastCount(double risk)
    {
        if (!(risk is > 0 and < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(risk), risk, "A level of a test lies between 0 and 1.");
        }

        int count = 3;
        for (double smallest = 2.0 / 6; smallest > risk; smallest /= count)
        {
            count++;
        }

        return count;
    }

    private static double Spread(int count) => count * (count - 1.0) * ((2 * count) + 5);

    // Probability that S is at least s, each step of 2 centred by half of it.
    private static double Tail(int s, double variance)
        => variance > 0 ? Normal.CDF(0, 1, -(s - 1) / Math.Sqrt(variance)) : (s <= 0 ? 1 : 0);

    // Orders of values with ties by their number of falling pairs: the coefficients of the Gaussian multinomial
    // (MacMahon 1915, Combinatory Analysis), built up group by group. S is the number of unequal pairs minus twice the falling ones.
    private static (double AtLeast, double AtMost) Exact(int s, int[] ties)
    {
        double[] orders = [1];
        int placed = 0;
        foreach (int tie in ties)
        {
            placed += tie;
            orders = Times(orders, GaussianBinomial(placed, tie));
        }

        int unequalPairs = orders.Length - 1;
        double all = orders.Sum();
        double atLeast = 0;
        double atMost = 0;
        for (int falling = 0; falling <= unequalPairs; falling++)
        {
            int here = unequalPairs - (2 * falling);
            atLeast += here >= s ? orders[falling] : 0;
            atMost += here <= s ? orders[falling] : 0;
        }

        return (atLeast / all, atMost / all);
    }

    private static double[] GaussianBinomial(int count, int chosen)
    {
        if (chosen == 0 || chosen == count)
        {
            return [1];
        }

        double[] with = GaussianBinomial(count - 1, chosen - 1);
        double[] without = GaussianBinomial(count - 1, chosen);
        var sum = new double[(chosen * (count - chosen)) + 1];
        for (int i = 0; i < with.Length; i++)
        {
            sum[i] += with[i];
        }

        for (int i = 0; i < without.Length; i++)
        {
            sum[i + chosen] += without[i];
        }

        return sum;
    }

    private static double[] Times(double[] first, double[] second)
    {
        var product = new double[first.Length + second.Length - 1];
        for (int i = 0; i < first.Length; i++)
        {
            for (int j = 0; j < second.Length; j++)
            {
                product[i + j] += first[i] * second[j];
            }
        }

        return product;
    }
}
