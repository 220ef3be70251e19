using System.Numerics;
using System.Runtime.InteropServices;
using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks;

/// <summary>Noise of the leaf itself, taken where the leaf is quiet: blocks without many specks or veins.</summary>
internal static class QuietBlocks
{
    private const int SidePx = 32;

    // Detail of more than eight units of Lab is a thing, not noise.
    private const float OutlierSquared = 64;

    /// <summary>Standard deviation of a one-channel float map in its quieter blocks (the 40th percentile of blocks).</summary>
    /// <param name="map">32-bit float; about 0 on the whole.</param>
    /// <param name="mask">255 leaf, 0 elsewhere.</param>
    /// <param name="blocks">The mask's <see cref="Inside"/>.</param>
    public static float Noise(Mat map, Mat mask, List<Rect> blocks)
    {
        if (blocks.Count == 0)
        {
            Cv2.MeanStdDev(map, out _, out Scalar whole, mask);
            return (float)whole.Val0;
        }

        float[] spreads = new float[blocks.Count];
        PixelRows<float> rows = new(map);
        Bands.Run(blocks.Count, (first, end) =>
        {
            for (int i = first; i < end; i++)
            {
                spreads[i] = Spread(rows, blocks[i]);
            }
        });
        Array.Sort(spreads);
        return spreads[(int)(spreads.Length * 0.4)];
    }

    private static float Spread(PixelRows<float> rows, Rect block)
    {
        Vector<float> sum = default, squares = default;
        for (int y = block.Top; y < block.Bottom; y++)
        {
            foreach (Vector<float> v in MemoryMarshal.Cast<float, Vector<float>>(rows[y].Slice(block.X, block.Width)))
            {
                sum += v;
                squares += v * v;
            }
        }

        double n = block.Width * block.Height;
        double mean = Vector.Sum(sum) / n;
        return (float)Math.Sqrt(Math.Max(0, (Vector.Sum(squares) / n) - (mean * mean)));
    }

    /// <summary>
    /// Covariance of the fine detail of sound tissue in a three-channel Lab map, drawn towards what sound leaves usually
    /// show when little sound tissue is left to learn from.
    /// </summary>
    /// <param name="map">32-bit float, three channels.</param>
    /// <param name="sound">255 where tissue is taken as sound, 0 elsewhere.</param>
    public static double[,] Covariance(Mat map, Mat sound)
    {
        using Mat fine = new();
        using Mat coarse = new();
        Cv2.GaussianBlur(map, fine, default, 1.2);
        // Every second pixel is looked at, so that half the size holds all the wide mean that is asked for.
        Cv2.Resize(map, coarse, new Size((map.Cols + 1) / 2, (map.Rows + 1) / 2), 0, 0, InterpolationFlags.Area);
        Cv2.GaussianBlur(coarse, coarse, default, 2);
        double[,] square = new double[3, 3];
        double n = 0;
        int rows = map.Rows;
        for (int y = 0; y < rows; y += 2)
        {
            ReadOnlySpan<Vec3f> row = fine.AsRow<Vec3f>(y);
            ReadOnlySpan<Vec3f> wide = coarse.AsRow<Vec3f>(y / 2);
            ReadOnlySpan<byte> use = sound.AsRow<byte>(y);
            for (int x = 0; x < row.Length; x += 2)
            {
                Vec3f v = row[x] - wide[x / 2];

                // Specks left among the sound, veins and glints are outliers of detail, not noise.
                if (use[x] == 0 || (v.Item0 * v.Item0) + (v.Item1 * v.Item1) + (v.Item2 * v.Item2) > OutlierSquared)
                {
                    continue;
                }

                n++;
                square[0, 0] += v.Item0 * v.Item0;
                square[0, 1] += v.Item0 * v.Item1;
                square[0, 2] += v.Item0 * v.Item2;
                square[1, 1] += v.Item1 * v.Item1;
                square[1, 2] += v.Item1 * v.Item2;
                square[2, 2] += v.Item2 * v.Item2;
            }
        }

        const double usualWeight = 2000;
        double[] usual = [4, 1.2, 2];
        for (int i = 0; i < 3; i++)
        {
            for (int j = i; j < 3; j++)
            {
                square[i, j] = (square[i, j] + (i == j ? usual[i] * usualWeight : 0)) / (n + usualWeight);
                square[j, i] = square[i, j];
            }
        }

        return square;
    }

    /// <summary>Blocks of <see cref="SidePx"/> that lie in the leaf but for a fiftieth.</summary>
    public static List<Rect> Inside(Mat mask)
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
