using System.Collections.Concurrent;
using System.Runtime.CompilerServices;

namespace LeafScan.Trends.Statistics;

/// <summary>
/// Which places of a list each resample draws. They hang on the seed and the number of things alone, not on the things: a list of
/// thousands of plants with ten leaves each, all drawn from the same seed, draws once.
/// </summary>
internal static class DrawnPlaces
{
    // 16 MB in all. A single drawing larger than an eighth of that (2000 resamples of more than 500 things) is made anew each time.
    private const int KeptMost = 8_000_000, OneMost = KeptMost / 8;

    private static readonly ConcurrentDictionary<(long Seed, int Count, int Resamples), ushort[]> Kept = new();
    private static int _keptPlaces;

    /// <summary>The places, resample after resample, each from 0 to <paramref name="count"/> - 1; null when they are too many to be kept.</summary>
    /// <param name="seed">What <see cref="FastDraw(long)"/> starts from.</param>
    /// <param name="count">How many things there are.</param>
    /// <param name="resamples">How many resamples.</param>
    public static ushort[]? Of(long seed, int count, int resamples)
    {
        if ((long)count * resamples > OneMost || count > ushort.MaxValue)
        {
            return null;
        }

        if (Kept.TryGetValue((seed, count, resamples), out ushort[]? places))
        {
            return places;
        }

        places = Draw(seed, count, resamples);
        if (Interlocked.Add(ref _keptPlaces, places.Length) > KeptMost)
        {
            // Ever new seeds are of no use to anybody: begin anew rather than keep track of which was asked for last.
            Kept.Clear();
            Interlocked.Exchange(ref _keptPlaces, places.Length);
        }

        Kept[(seed, count, resamples)] = places;
        return places;
    }

    // Compiled fully at once: the first asking of a command is often its only one.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static ushort[] Draw(long seed, int count, int resamples)
    {
        var draw = new FastDraw(seed);
        var places = new ushort[count * resamples];
        for (int i = 0; i < places.Length; i++)
        {
            places[i] = (ushort)draw.Next(count);
        }

        return places;
    }
}
