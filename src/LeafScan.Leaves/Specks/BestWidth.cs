using System.Numerics;
using System.Runtime.InteropServices;
using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks;

/// <summary>Keeps, at each pixel, the width whose response stands out most from its own noise.</summary>
internal static class BestWidth
{
    /// <summary>Takes over a width wherever it answers better than those before it.</summary>
    /// <param name="response">Response of the width, 32-bit float.</param>
    /// <param name="perNoise">1 / noise of that width.</param>
    /// <param name="level">Number of the width.</param>
    /// <param name="best">Response over noise of the best so far, 32-bit float.</param>
    /// <param name="bestLevel">Its number, 8-bit.</param>
    public static void Take(Mat response, float perNoise, byte level, Mat best, Mat bestLevel)
    {
        PixelRows<float> from = new(response);
        PixelRows<float> to = new(best);
        PixelRows<byte> which = new(bestLevel);
        Bands.Run(response.Rows, (first, end) =>
        {
            for (int y = first; y < end; y++)
            {
                Take(from[y], perNoise, level, to[y], which[y]);
            }
        });
    }

    private static void Take(ReadOnlySpan<float> from, float perNoise, byte level, Span<float> to, Span<byte> which)
    {
        ReadOnlySpan<Vector<float>> wide = MemoryMarshal.Cast<float, Vector<float>>(from);
        Span<Vector<float>> wideTo = MemoryMarshal.Cast<float, Vector<float>>(to);
        Span<Vector<byte>> wideWhich = MemoryMarshal.Cast<byte, Vector<byte>>(which);
        Vector<byte> levels = new(level);
        for (int i = 0; i < wideWhich.Length; i++)
        {
            // One vector of levels goes with four of responses.
            int at = 4 * i;
            Vector<short> left = Vector.Narrow(Better(wide, wideTo, at, perNoise), Better(wide, wideTo, at + 1, perNoise));
            Vector<short> right = Vector.Narrow(Better(wide, wideTo, at + 2, perNoise), Better(wide, wideTo, at + 3, perNoise));
            wideWhich[i] = Vector.ConditionalSelect(Vector.AsVectorByte(Vector.Narrow(left, right)), levels, wideWhich[i]);
        }

        for (int x = wideWhich.Length * Vector<byte>.Count; x < from.Length; x++)
        {
            float ratio = from[x] * perNoise;
            if (ratio > to[x])
            {
                (to[x], which[x]) = (ratio, level);
            }
        }
    }

    private static Vector<int> Better(ReadOnlySpan<Vector<float>> from, Span<Vector<float>> to, int at, float perNoise)
    {
        Vector<float> ratio = from[at] * perNoise;
        Vector<int> better = Vector.GreaterThan(ratio, to[at]);
        to[at] = Vector.ConditionalSelect(better, ratio, to[at]);
        return better;
    }
}
