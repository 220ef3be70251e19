using MathNet.Numerics.Distributions;

namespace LeafScan.Trends.Statistics;

/// <summary>
/// Wilcoxon's signed-rank test on paired differences (Wilcoxon 1945, Biometrics Bulletin 1:80-83). Differences of 0 are
/// left out, equal sizes share their mean rank. Up to <see cref="ExactUpTo"/> differences the probabilities are exact, also with
/// shared ranks; above that they come from the normal value with continuity correction.
/// </summary>
/// <param name="Count">Differences other than 0.</param>
/// <param name="ZeroCount">Differences of 0, left out.</param>
/// <param name="WPlus">Sum of the ranks of the positive differences (called V in some programs).</param>
/// <param name="WMinus">Sum of the ranks of the negative differences.</param>
/// <param name="IsExact">Whether the probabilities are exact.</param>
/// <param name="PGreater">Probability of a <paramref name="WPlus"/> at least as high when there is no difference.</param>
/// <param name="PLess">Probability of a <paramref name="WPlus"/> at most as high when there is no difference.</param>
/// <param name="PTwoSided">Twice the smaller of the two, at most 1.</param>
public sealed record WilcoxonSignedRank(
    int Count, int ZeroCount, double WPlus, double WMinus, bool IsExact, double PGreater, double PLess, double PTwoSided)
{
    /// <summary>Most differences for which probabilities are exact.</summary>
    public const int ExactUpTo = 60;

    /// <summary>Tests differences, later minus earlier. Pair plants rather than leaves of one plant, which are not independent.</summary>
    /// <param name="differences">One difference a pair.</param>
    /// <returns>Null, "cannot say", when no difference is other than 0.</returns>
    public static WilcoxonSignedRank? Of(IReadOnlyList<double> differences)
    {
        double[] sorted = [.. differences.Where(difference => difference != 0).OrderBy(Math.Abs)];
        if (sorted.Length == 0)
        {
            return null;
        }

        // Twice the mean rank is a whole number, so that shared ranks can be counted like others.
        int[] doubledRanks = DoubledRanks(sorted);
        int plus = doubledRanks.Where((_, at) => sorted[at] > 0).Sum();
        int all = doubledRanks.Sum();
        (double greater, double less) = sorted.Length <= ExactUpTo ? Exact(doubledRanks, plus, all) : Near(doubledRanks, plus, all);
        return new WilcoxonSignedRank(
            sorted.Length,
            differences.Count - sorted.Length,
            plus / 2.0,
            (all - plus) / 2.0,
            sorted.Length <= ExactUpTo,
            greater,
            less,
            Math.Min(1, 2 * Math.Min(greater, less)));
    }

    private static int[] DoubledRanks(double[] sorted)
    {
        var ranks = new int[sorted.Length];
        for (int start = 0; start < sorted.Length;)
        {
            int end = start + 1;
            while (end < sorted.Length && Math.Abs(sorted[end]) == Math.Abs(sorted[start]))
            {
                end++;
            }

            // First rank start + 1, last rank end.
            Array.Fill(ranks, start + 1 + end, start, end - start);
            start = end;
        }

        return ranks;
    }

    private static (double Greater, double Less) Exact(int[] doubledRanks, int plus, int all)
    {
        var chance = new double[all + 1];
        chance[0] = 1;
        int reach = 0;
        foreach (int rank in doubledRanks)
        {
            for (int sum = reach; sum >= 0; sum--)
            {
                chance[sum] /= 2;
                chance[sum + rank] += chance[sum];
            }

            reach += rank;
        }

        return (chance.AsSpan(plus).ToArray().Sum(), chance.AsSpan(0, plus + 1).ToArray().Sum());
    }

    private static (double Greater, double Less) Near(int[] doubledRanks, int plus, int all)
    {
        double mean = all / 2.0;
        double spread = Math.Sqrt(doubledRanks.Sum(rank => (double)rank * rank)) / 2;
        return (Normal.CDF(0, 1, -(plus - 1 - mean) / spread), Normal.CDF(0, 1, (plus + 1 - mean) / spread));
    }
}
