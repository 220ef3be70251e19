using System.Runtime.CompilerServices;

namespace LeafScan.Trends.Statistics;

/// <summary>The two outer quantiles of many numbers without sorting them all: only what lies at the wanted ranks is brought there (Hoare 1961).</summary>
internal static class Ends
{
    private const int Many = 400, Sampled = 41, Inwards = 2;

    /// <summary>Quantiles at <paramref name="tail"/> and 1 - <paramref name="tail"/>, as <see cref="Sample.Quantile"/> gives them on sorted numbers.</summary>
    /// <param name="values">The numbers; their order changes.</param>
    /// <param name="tail">Share below the lower one, 0 to 0.5.</param>
    public static (double Low, double High) Of(Span<double> values, double tail)
    {
        double low = Quantile(values, tail);
        return (low, Quantile(values, 1 - tail));
    }

    private static double Quantile(Span<double> values, double share)
    {
        double at = share * (values.Length - 1);
        int below = (int)Math.Floor(at);
        double first = Select(values, below);
        double part = at - below;
        if (part == 0 || below + 1 >= values.Length)
        {
            return first;
        }

        // Everything behind the rank is at least as large: the next one is the least of it.
        double next = values[below + 1];
        foreach (double value in values[(below + 2)..])
        {
            next = Math.Min(next, value);
        }

        return first + (part * (next - first));
    }

    // Brings the value of the rank to its place: nothing larger before it, nothing smaller behind. Compiled fully at once, because a command
    // that asks once would run it slow.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static double Select(Span<double> values, int rank)
    {
        int from = 0, to = values.Length - 1;
        while (from < to)
        {
            double pivot = to - from < Many
                ? Middle(values[from], values[from + ((to - from) / 2)], values[to])
                : Near(values[from..(to + 1)], rank - from);
            int left = from, right = to;
            while (left <= right)
            {
                while (values[left] < pivot)
                {
                    left++;
                }

                while (values[right] > pivot)
                {
                    right--;
                }

                if (left <= right)
                {
                    (values[left], values[right]) = (values[right], values[left]);
                    left++;
                    right--;
                }
            }

            if (rank <= right)
            {
                to = right;
            }
            else if (rank >= left)
            {
                from = left;
            }
            else
            {
                break;
            }
        }

        return values[rank];
    }

    // An outer rank among many: a pivot a little farther in than the rank leaves a short part to go on with, and nearly all comparisons end
    // alike, which processors foretell (after the idea of Floyd and Rivest 1975, Communications of the ACM 18:165-172).
    private static double Near(ReadOnlySpan<double> values, int rank)
    {
        Span<double> some = stackalloc double[Sampled];
        for (int i = 0; i < some.Length; i++)
        {
            some[i] = values[(int)((long)i * (values.Length - 1) / (Sampled - 1))];
        }

        some.Sort();
        double at = (double)rank / (values.Length - 1) * (Sampled - 1);
        return some[Math.Clamp((int)Math.Round(at < Sampled / 2 ? at + Inwards : at - Inwards), 0, Sampled - 1)];
    }

    private static double Middle(double a, double b, double c) => Math.Max(Math.Min(a, b), Math.Min(Math.Max(a, b), c));
}
