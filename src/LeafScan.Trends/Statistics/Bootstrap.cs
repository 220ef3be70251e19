using System.Buffers;
using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using MathNet.Numerics.Distributions;

namespace LeafScan.Trends.Statistics;

/// <summary>
/// Intervals by drawing again from the sample (Efron 1979, Annals of Statistics 7:1-26; percentile method). The same seed
/// gives the same interval; for means also when the values come in another order.
/// <para>
/// The plain percentile interval is too narrow for few values: a resample of n values varies with the variance of divisor
/// n, and its tails are the normal ones. The widened form stretches each resample by sqrt(n/(n-1)) about the sample's
/// mean and takes the tail from Student's t with the degrees of freedom at hand. It is near to the "expanded" percentile interval of
/// Hesterberg 2015, The American Statistician 69:371-386, and carries over to a difference of two means.
/// </para>
/// </summary>
public static class Bootstrap
{
    private static readonly ConcurrentDictionary<(double Level, int Freedom), double> Tails = new();

    /// <summary>How many resamples when nothing else is asked for.</summary>
    public const int UsualResamples = 2000;

    /// <summary>Plain percentile interval of any statistic.</summary>
    /// <param name="values">The sample, at least one value.</param>
    /// <param name="statistic">Gives one number for a resample; the list is used again, so keep no hold of it.</param>
    /// <param name="level">Level of trust, between 0 and 1.</param>
    /// <param name="random">Source of chance.</param>
    /// <param name="resamples">How many resamples, at least 100.</param>
    public static Interval Percentile(
        IReadOnlyList<double> values, Func<IReadOnlyList<double>, double> statistic, double level, Random random, int resamples = UsualResamples)
    {
        var resample = new double[values.Count];
        return PercentileOf(
            values.Count,
            places =>
            {
                for (int i = 0; i < resample.Length; i++)
                {
                    resample[i] = values[places[i]];
                }

                return statistic(resample);
            },
            level,
            random,
            resamples);
    }

    /// <summary>Plain percentile interval of a statistic over things that belong together, such as pairs: the drawing is of places in the list.</summary>
    /// <param name="count">How many things there are, at least 1.</param>
    /// <param name="statistic">Gives one number for the drawn places, each from 0 to <paramref name="count"/> - 1; the list is used again.</param>
    /// <param name="level">Level of trust, between 0 and 1.</param>
    /// <param name="random">Source of chance.</param>
    /// <param name="resamples">How many resamples, at least 100.</param>
    public static Interval PercentileOf(int count, Func<IReadOnlyList<int>, double> statistic, double level, Random random, int resamples = UsualResamples)
    {
        Check(count, level, resamples);
        var drawn = new int[count];
        var results = new double[resamples];
        for (int round = 0; round < resamples; round++)
        {
            for (int i = 0; i < count; i++)
            {
                drawn[i] = random.Next(count);
            }

            results[round] = statistic(drawn);
        }

        return Between(results, (1 - level) / 2, level);
    }

    /// <summary>Widened interval of a mean.</summary>
    /// <param name="values">The sample, at least two values.</param>
    /// <param name="level">Level of trust, between 0 and 1.</param>
    /// <param name="random">Source of chance.</param>
    /// <param name="resamples">How many resamples, at least 100.</param>
    public static Interval Mean(IReadOnlyList<double> values, double level, Random random, int resamples = UsualResamples)
    {
        Check(values.Count, level, resamples);
        ArgumentOutOfRangeException.ThrowIfLessThan(values.Count, 2, nameof(values));
        double[] results = Shared.Rent(resamples);
        Span<double> means = results.AsSpan(0, resamples);
        StretchedMeans(values, random, means);
        Interval interval = Between(means, WholeTail(level, values.Count - 1), level);
        Shared.Return(results);
        return interval;
    }

    /// <summary>Widened interval of the mean of <paramref name="later"/> minus the mean of <paramref name="earlier"/>, drawn apart from each other.</summary>
    /// <param name="earlier">First sample, at least two values.</param>
    /// <param name="later">Second sample, at least two values.</param>
    /// <param name="level">Level of trust, between 0 and 1.</param>
    /// <param name="random">Source of chance.</param>
    /// <param name="resamples">How many resamples, at least 100.</param>
    public static Interval MeanDifference(
        IReadOnlyList<double> earlier, IReadOnlyList<double> later, double level, Random random, int resamples = UsualResamples)
    {
        Check(Math.Min(earlier.Count, later.Count), level, resamples);
        ArgumentOutOfRangeException.ThrowIfLessThan(earlier.Count, 2, nameof(earlier));
        ArgumentOutOfRangeException.ThrowIfLessThan(later.Count, 2, nameof(later));
        var results = new double[resamples];
        var first = new double[resamples];
        StretchedMeans(later, random, results);
        StretchedMeans(earlier, random, first);
        for (int round = 0; round < resamples; round++)
        {
            results[round] -= first[round];
        }

        return Between(results, Tail(level, WelchDifference.FreedomOf(earlier, later)), level);
    }

    // Thousands of plants would otherwise each leave an array behind for the collector.
    private static ArrayPool<double> Shared => ArrayPool<double>.Shared;

    private static void StretchedMeans(IReadOnlyList<double> values, Random random, Span<double> sums)
    {
        // By size, so that the same values in another order give the same interval: photos come into a record as measuring ends, not as they were taken.
        double[] all = [.. values];
        Array.Sort(all);
        double mean = Sample.Mean(all);
        double stretch = Math.Sqrt(all.Length / (all.Length - 1.0));
        long seed = random.NextInt64();
        if (DrawnPlaces.Of(seed, all.Length, sums.Length) is { } places)
        {
            SumDrawn(all, places, sums);
        }
        else
        {
            SumDrawn(all, seed, sums);
        }

        for (int round = 0; round < sums.Length; round++)
        {
            sums[round] = mean + (stretch * ((sums[round] / all.Length) - mean));
        }
    }

    // Both add in the order of drawing, so that they agree to the last digit.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void SumDrawn(double[] all, ushort[] places, Span<double> sums)
    {
        // The places were drawn for a list of this length, so that each lies in it: looking again would take as long as adding.
        ArgumentOutOfRangeException.ThrowIfNotEqual(places.Length, all.Length * sums.Length);
        ref double values = ref MemoryMarshal.GetArrayDataReference(all);
        ref ushort place = ref MemoryMarshal.GetArrayDataReference(places);
        for (int round = 0; round < sums.Length; round++)
        {
            double sum = 0;
            for (int i = 0; i < all.Length; i++)
            {
                sum += Unsafe.Add(ref values, (nint)place);
                place = ref Unsafe.Add(ref place, 1);
            }

            sums[round] = sum;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void SumDrawn(double[] all, long seed, Span<double> sums)
    {
        var draw = new FastDraw(seed);
        for (int round = 0; round < sums.Length; round++)
        {
            double sum = 0;
            for (int i = 0; i < all.Length; i++)
            {
                sum += all[draw.Next(all.Length)];
            }

            sums[round] = sum;
        }
    }

    // The normal tail that lies as many standard errors out as Student's t does.
    private static double Tail(double level, double degreesOfFreedom)
        => Normal.CDF(0, 1, StudentT.InvCDF(0, 1, degreesOfFreedom, (1 - level) / 2));

    // Thousands of plants with ten leaves each ask for the same tail, and the inverse of Student's t takes as long as the drawing.
    private static double WholeTail(double level, int degreesOfFreedom)
        => Tails.GetOrAdd((level, degreesOfFreedom), static key => Tail(key.Level, key.Freedom));

    private static Interval Between(Span<double> results, double tail, double level)
    {
        (double low, double high) = Ends.Of(results, tail);
        return new Interval(low, high, level);
    }

    private static void Check(int count, double level, int resamples)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(resamples, 100);
        Interval.CheckLevel(level);
    }
}
