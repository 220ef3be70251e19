using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks;

/// <summary>Noise of the leaf itself, taken where the leaf is quiet: blocks without many specks or veins.</summary>
internal static class QuietBlocks
{
    private const int SidePx = 32;

    /// <summary>Standard deviation of a one-channel float map in its quieter blocks (the 40th percentile of blocks).</summary>
    public static float Noise(Mat map, Mat mask)
    {
        List<double> spreads = [];
        foreach (Rect block in Inside(mask))
        {
            using Mat view = new(map, block);
            Cv2.MeanStdDev(view, out _, out Scalar spread);
            spreads.Add(spread.Val0);
        }

        if (spreads.Count == 0)
        {
            Cv2.MeanStdDev(map, out _, out Scalar whole, mask);
            return (float)whole.Val0;
        }

        spreads.Sort();
        return (float)spreads[(int)(spreads.Count * 0.4)];
    }

    /// <summary>Mean covariance of fine detail of a three-channel float map over its quiet blocks.</summary>
    public static double[,] Covariance(Mat map, Mat mask)
    {
        using Mat fine = new();
        using Mat coarse = new();
        Cv2.GaussianBlur(map, fine, default, 1.2);
        Cv2.GaussianBlur(map, coarse, default, 4);
        Cv2.Subtract(fine, coarse, fine);
        List<double[,]> all = [];
        foreach (Rect block in Inside(mask))
        {
            all.Add(Of(fine, block));
        }

        if (all.Count == 0)
        {
            return new double[,] { { 4, 0, 0 }, { 0, 2, 0 }, { 0, 0, 2 } };
        }

        all.Sort((a, b) => Trace(a).CompareTo(Trace(b)));
        int from = (int)(all.Count * 0.15);
        int to = Math.Max(from + 1, (int)(all.Count * 0.55));
        double[,] mean = new double[3, 3];
        for (int k = from; k < to; k++)
        {
            for (int i = 0; i < 9; i++)
            {
                mean[i / 3, i % 3] += all[k][i / 3, i % 3] / (to - from);
            }
        }

        return mean;
    }

    private static double Trace(double[,] c) => c[0, 0] + c[1, 1] + c[2, 2];

    private static double[,] Of(Mat map, Rect block)
    {
        double[] sum = new double[3];
        double[,] square = new double[3, 3];
        for (int y = block.Y; y < block.Bottom; y++)
        {
            ReadOnlySpan<Vec3f> row = map.AsRow<Vec3f>(y).Slice(block.X, block.Width);
            foreach (Vec3f v in row)
            {
                sum[0] += v.Item0;
                sum[1] += v.Item1;
                sum[2] += v.Item2;
                square[0, 0] += v.Item0 * v.Item0;
                square[0, 1] += v.Item0 * v.Item1;
                square[0, 2] += v.Item0 * v.Item2;
                square[1, 1] += v.Item1 * v.Item1;
                square[1, 2] += v.Item1 * v.Item2;
                square[2, 2] += v.Item2 * v.Item2;
            }
        }

        double n = block.Width * block.Height;
        for (int i = 0; i < 3; i++)
        {
            for (int j = i; j < 3; j++)
            {
                square[i, j] = (square[i, j] / n) - (sum[i] / n * (sum[j] / n));
                square[j, i] = square[i, j];
            }
        }

        return square;
    }

    private static List<Rect> Inside(Mat mask)
    {
        List<Rect> blocks = [];
        (int rows, int cols) = (mask.Rows, mask.Cols);
        for (int y = 0; y + SidePx <= rows; y += SidePx)
        {
            for (int x = 0; x + SidePx <= cols; x += SidePx)
            {
                Rect block = new(x, y, SidePx, SidePx);
                using Mat view = new(mask, block);
                if (Cv2.CountNonZero(view) >= SidePx * SidePx * 0.98)
                {
                    blocks.Add(block);
                }
            }
        }

        return blocks;
    }
}
