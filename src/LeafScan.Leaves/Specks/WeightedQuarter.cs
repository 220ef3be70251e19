using System.Runtime.Intrinsics;
using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks;

/// <summary>
/// Colours times their weights, and the weights, at a quarter of the size: means of 4 x 4 pixels to the last bit as OpenCV's area
/// averaging gives them, without the two pictures of full size that would be made for it and thrown away.
/// </summary>
internal static class WeightedQuarter
{
    private const int Side = 4;

    /// <summary>Whether both sides can be parted by four; else OpenCV's way is another one.</summary>
    public static bool Fits(Size size) => size.Width % Side == 0 && size.Height % Side == 0 && size is { Width: > 0, Height: > 0 };

    /// <summary>Fills both small pictures.</summary>
    /// <param name="colours">32-bit float, three channels.</param>
    /// <param name="weigh">Fills a row of weights, given its number.</param>
    /// <param name="small">Receives the mean of colour times weight.</param>
    /// <param name="smallWeight">Receives the mean weight.</param>
    public static void Into(Mat colours, RowOfWeights weigh, Mat small, Mat smallWeight)
    {
        Size size = new(colours.Cols / Side, colours.Rows / Side);
        small.Create(size, MatType.CV_32FC3);
        smallWeight.Create(size, MatType.CV_32FC1);
        PixelRows<Vec3f> from = new(colours), to = new(small);
        PixelRows<float> toWeight = new(smallWeight);
        Bands.Run(size.Height, (first, end) =>
        {
            float[] weights = new float[from.Cols];
            Vector128<float>[] sums = new Vector128<float>[size.Width];
            for (int y = first; y < end; y++)
            {
                Array.Clear(sums);
                for (int row = y * Side; row < (y + 1) * Side; row++)
                {
                    weigh(row, weights);
                    Add(from[row], weights, sums);
                }

                Write(sums, to[y], toWeight[y]);
            }
        });
    }

    // Four pixels one after the other, then to what the rows above gave: another order would round otherwise.
    private static void Add(ReadOnlySpan<Vec3f> colours, ReadOnlySpan<float> weights, Span<Vector128<float>> sums)
    {
        for (int i = 0; i < sums.Length; i++)
        {
            int x = i * Side;
            sums[i] += Weighted(colours[x], weights[x]) + Weighted(colours[x + 1], weights[x + 1]) + Weighted(colours[x + 2], weights[x + 2]) + Weighted(colours[x + 3], weights[x + 3]);
        }
    }

    private static Vector128<float> Weighted(Vec3f colour, float weight) => Vector128.Create(colour.Item0, colour.Item1, colour.Item2, 1) * weight;

    private static void Write(ReadOnlySpan<Vector128<float>> sums, Span<Vec3f> to, Span<float> toWeight)
    {
        for (int x = 0; x < sums.Length; x++)
        {
            Vector128<float> mean = sums[x] * (1f / (Side * Side));
            to[x] = new Vec3f(mean[0], mean[1], mean[2]);
            toWeight[x] = mean[3];
        }
    }
}

/// <summary>Fills a row of weights.</summary>
/// <param name="y">Which row.</param>
/// <param name="weights">Receives the weights.</param>
internal delegate void RowOfWeights(int y, Span<float> weights);
