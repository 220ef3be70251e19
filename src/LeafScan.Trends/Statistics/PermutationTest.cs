using MathNet.Numerics;

namespace LeafScan.Trends.Statistics;

/// <summary>
/// Permutation tests of a mean difference (Fisher 1935, The Design of Experiments, section 21). All arrangements are tried
/// where there are at most <see cref="ArrangementsMost"/>; else as many are drawn as asked for, the observed one counted among them.
/// Arrangements that come out equal to the observed one count as at least as large.
/// </summary>
/// <param name="MeanDifference">Observed mean difference.</param>
/// <param name="Arrangements">Arrangements tried.</param>
/// <param name="AtLeast">Arrangements with a difference at least as high.</param>
/// <param name="AtMost">Arrangements with a difference at most as high.</param>
/// <param name="AsFar">Arrangements with a difference at least as far from 0.</param>
/// <param name="IsExact">Whether all arrangements were tried.</param>
public sealed record PermutationTest(double MeanDifference, long Arrangements, long AtLeast, long AtMost, long AsFar, bool IsExact)
{
    /// <summary>Most arrangements that are all tried.</summary>
    public const long ArrangementsMost = 300_000;

    /// <summary>How many arrangements are drawn when there are too many to try all.</summary>
    public const int UsualDraws = 20_000;

    /// <summary>Probability of a difference at least as high when there is none.</summary>
    public double PGreater => (double)AtLeast / Arrangements;

    /// <summary>Probability of a difference at most as high when there is none.</summary>
    public double PLess => (double)AtMost / Arrangements;

    /// <summary>Probability of a difference at least as far from 0 when there is none.</summary>
    public double PTwoSided => (double)AsFar / Arrangements;

    /// <summary>Pairs: the sign of each difference is turned round.</summary>
    /// <param name="differences">One difference a pair, at least one.</param>
    /// <param name="random">Source of chance, used only when there are too many arrangements to try all.</param>
    /// <param name="draws">How many are then drawn, at least 100.</param>
    public static PermutationTest OfPairs(IReadOnlyList<double> differences, Random random, int draws = UsualDraws)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(differences.Count, 1, nameof(differences));
        ArgumentOutOfRangeException.ThrowIfLessThan(draws, 100);
        double[] values = [.. differences];
        var tally = new Tally(values.Sum(), values.Sum(Math.Abs));
        bool isExact = values.Length < 63 && 1L << values.Length <= ArrangementsMost;
        if (isExact)
        {
            for (long signs = 0; signs < 1L << values.Length; signs++)
            {
                double sum = 0;
                for (int i = 0; i < values.Length; i++)
                {
                    sum += (signs >> i & 1) == 0 ? values[i] : -values[i];
                }

                tally.Add(sum);
            }
        }
        else
        {
            tally.Add(values.Sum());
            for (int draw = 1; draw < draws; draw++)
            {
                tally.Add(values.Sum(value => random.Next(2) == 0 ? value : -value));
            }
        }

        return tally.Result(differences.Average(), isExact);
    }

    /// <summary>Two groups, such as the change on untreated and on treated plants: members change groups.</summary>
    /// <param name="first">First group, at least one value.</param>
    /// <param name="second">Second group, at least one value. The difference is first minus second.</param>
    /// <param name="random">Source of chance, used only when there are too many arrangements to try all.</param>
    /// <param name="draws">How many are then drawn, at least 100.</param>
    public static PermutationTest OfGroups(IReadOnlyList<double> first, IReadOnlyList<double> second, Random random, int draws = UsualDraws)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(first.Count, 1, nameof(first));
        ArgumentOutOfRangeException.ThrowIfLessThan(second.Count, 1, nameof(second));
        ArgumentOutOfRangeException.ThrowIfLessThan(draws, 100);
        double[] all = [.. first, .. second];
        double total = all.Sum();

        // With the sum of the first group alone the difference of means is known.
        double Difference(double sum) => (sum / first.Count) - ((total - sum) / second.Count);
        double observed = Difference(first.Sum());
        var tally = new Tally(observed, all.Sum(Math.Abs));
        bool isExact = SpecialFunctions.BinomialLn(all.Length, first.Count) <= Math.Log(ArrangementsMost) + 1e-9;
        if (isExact)
        {
            TryAll(all, first.Count, sum => tally.Add(Difference(sum)));
        }
        else
        {
            tally.Add(observed);
            for (int draw = 1; draw < draws; draw++)
            {
                random.Shuffle(all);
                tally.Add(Difference(all.Take(first.Count).Sum()));
            }
        }

        return tally.Result(observed, isExact);
    }

    private static void TryAll(double[] all, int chosen, Action<double> add)
    {
        int[] places = [.. Enumerable.Range(0, chosen)];
        while (true)
        {
            add(places.Sum(place => all[place]));
            int at = chosen - 1;
            while (at >= 0 && places[at] == all.Length - chosen + at)
            {
                at--;
            }

            if (at < 0)
            {
                return;
            }

            places[at]++;
            for (int next = at + 1; next < chosen; next++)
            {
                places[next] = places[next - 1] + 1;
            }
        }
    }

    // Sums of the same numbers in another order differ by rounding: such count as equal.
    private sealed class Tally(double observed, double size)
    {
        private readonly double _slack = 1e-12 * size;
        private long _all;
        private long _atLeast;
        private long _atMost;
        private long _asFar;

        public void Add(double value)
        {
            _all++;
            _atLeast += value >= observed - _slack ? 1 : 0;
            _atMost += value <= observed + _slack ? 1 : 0;
            _asFar += Math.Abs(value) >= Math.Abs(observed) - _slack ? 1 : 0;
        }

        public PermutationTest Result(double meanDifference, bool isExact) => new(meanDifference, _all, _atLeast, _atMost, _asFar, isExact);
    }
}
