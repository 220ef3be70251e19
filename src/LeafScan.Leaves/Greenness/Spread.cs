using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Greenness;

/// <summary>Order statistics of a plane inside a mask, by counting.</summary>
internal static class Spread
{
    /// <summary>Values at several ranks.</summary>
    /// <param name="plane">32-bit float, one channel.</param>
    /// <param name="inside">8-bit; not 0 where a pixel counts.</param>
    /// <param name="low">Smallest value told apart.</param>
    /// <param name="high">Largest value told apart.</param>
    /// <param name="ranks">0 to 1 each.</param>
    /// <returns>One value for each rank; <paramref name="low"/> where no pixel counts.</returns>
    public static double[] Ranks(Mat plane, Mat inside, double low, double high, params double[] ranks)
    {
        const int Cells = 2000;
        int[] counts = Histogram(plane, inside, low, high, Cells);
        long all = counts.Sum(c => (long)c);
        return [.. ranks.Select(rank => At(counts, all, rank, low, high))];
    }

    /// <summary>How many pixels fall into each cell; what lies outside the range counts in the outer cells.</summary>
    public static int[] Histogram(Mat plane, Mat inside, double low, double high, int cells)
    {
        int[] counts = new int[cells];
        float scale = (float)(cells / (high - low));
        int rows = plane.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> row = plane.AsRow<float>(y);
            ReadOnlySpan<byte> mask = inside.AsRow<byte>(y);
            for (int x = 0; x < row.Length; x++)
            {
                if (mask[x] != 0)
                {
                    counts[Math.Clamp((int)((row[x] - (float)low) * scale), 0, cells - 1)]++;
                }
            }
        }

        return counts;
    }

    private static double At(int[] counts, long all, double rank, double low, double high)
    {
        long wanted = (long)(rank * all);
        long seen = 0;
        for (int i = 0; i < counts.Length; i++)
        {
            seen += counts[i];
            if (seen > wanted)
            {
                return low + ((i + 0.5) * (high - low) / counts.Length);
            }
        }

        return low;
    }
}
