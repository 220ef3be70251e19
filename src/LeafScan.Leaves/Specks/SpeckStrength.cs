using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks;

/// <summary>
/// Strength of bleaching against the tissue just around, in CIE Lab: 0 like the neighbourhood, 1 fully bleached. The
/// colour direction is weighted by the inverse covariance of the leaf's own fine noise (Fisher's linear discriminant),
/// which damps lightness on glossy leaves and chroma on noisy ones.
/// </summary>
internal static class SpeckStrength
{
    private const double NeighbourhoodSigmaPx = 14;
    private const float BleachedOut = 0.45f;
    private const float LeastWeight = 0.02f;

    /// <summary>Writes the map, 32-bit float, 0 outside the leaf.</summary>
    /// <param name="bgr">The leaf, 8-bit B, G, R.</param>
    /// <param name="mask">255 leaf, 0 elsewhere.</param>
    /// <param name="lab">The leaf in L*a*b*, 32-bit float.</param>
    /// <param name="bleach">Bleach strength against the whole leaf's own colour.</param>
    /// <param name="strength">Receives the map; has its size and kind already.</param>
    public static void Into(Mat bgr, Mat mask, Mat lab, Mat bleach, Mat strength)
    {
        using Mat difference = Neighbourhood(lab, mask, bleach);
        Cv2.Subtract(lab, difference, difference);
        double[] direction = BleachDirection(bgr, mask);
        using Mat sound = new();
        Cv2.Compare(bleach, Scalar.All(0.25), sound, CmpTypes.LT);
        Cv2.BitwiseAnd(sound, mask, sound);
        double[,] noise = QuietBlocks.Covariance(difference, sound);
        double[] filter = Whiten(noise, direction);
        (float l, float a, float b) = ((float)filter[0], (float)filter[1], (float)filter[2]);
        PixelRows<Vec3f> colours = new(difference);
        PixelRows<byte> leaf = new(mask);
        PixelRows<float> map = new(strength);
        Bands.Run(mask.Rows, (first, end) =>
        {
            for (int y = first; y < end; y++)
            {
                ReadOnlySpan<Vec3f> from = colours[y];
                ReadOnlySpan<byte> inside = leaf[y];
                Span<float> to = map[y];
                for (int x = 0; x < to.Length; x++)
                {
                    Vec3f v = from[x];
                    to[x] = inside[x] == 0 ? 0 : (l * v.Item0) + (a * v.Item1) + (b * v.Item2);
                }
            }
        });
    }

    // Mean colour around each pixel. Bleached pixels hardly count, so that a dense field of specks is not its own
    // neighbourhood; where everything is bleached (a yellow patch) they are all there is and count fully.
    private static Mat Neighbourhood(Mat lab, Mat mask, Mat bleach)
    {
        PixelRows<byte> leaf = new(mask);
        PixelRows<float> bleaching = new(bleach);
        using Mat small = new();
        using Mat smallWeight = new();
        RowOfWeights weigh = (y, weights) => Weigh(leaf[y], bleaching[y], weights);
        if (WeightedQuarter.Fits(lab.Size()))
        {
            WeightedQuarter.Into(lab, weigh, small, smallWeight);
        }
        else
        {
            Shrink(lab, weigh, small, smallWeight);
        }

        Cv2.GaussianBlur(small, small, default, NeighbourhoodSigmaPx / 4);
        Cv2.GaussianBlur(smallWeight, smallWeight, default, NeighbourhoodSigmaPx / 4);
        Cv2.Add(smallWeight, Scalar.All(1e-6), smallWeight);
        using Mat three = new();
        Cv2.Merge([smallWeight, smallWeight, smallWeight], three);
        Cv2.Divide(small, three, small);
        Mat full = new();
        Cv2.Resize(small, full, lab.Size(), 0, 0, InterpolationFlags.Linear);
        return full;
    }

    private static void Weigh(ReadOnlySpan<byte> inside, ReadOnlySpan<float> bleach, Span<float> weights)
    {
        for (int x = 0; x < weights.Length; x++)
        {
            weights[x] = inside[x] == 0 ? 0 : Math.Clamp((BleachedOut - bleach[x]) * 4, LeastWeight, 1);
        }
    }

    // Where the sides cannot be parted by four.
    private static void Shrink(Mat lab, RowOfWeights weigh, Mat small, Mat smallWeight)
    {
        using Mat weight = new(lab.Size(), MatType.CV_32FC1);
        using Mat weighted = new(lab.Size(), MatType.CV_32FC3);
        PixelRows<float> weights = new(weight);
        PixelRows<Vec3f> colours = new(lab), products = new(weighted);
        Bands.Run(lab.Rows, (first, end) =>
        {
            for (int y = first; y < end; y++)
            {
                ReadOnlySpan<Vec3f> colour = colours[y];
                Span<float> w = weights[y];
                Span<Vec3f> to = products[y];
                weigh(y, w);
                for (int x = 0; x < w.Length; x++)
                {
                    to[x] = new Vec3f(w[x] * colour[x].Item0, w[x] * colour[x].Item1, w[x] * colour[x].Item2);
                }
            }
        });

        Size size = new(Math.Max(1, lab.Cols / 4), Math.Max(1, lab.Rows / 4));
        Cv2.Resize(weighted, small, size, 0, 0, InterpolationFlags.Area);
        Cv2.Resize(weight, smallWeight, size, 0, 0, InterpolationFlags.Area);
    }

    // From the leaf's median colour to the colour it has where chlorophyll is gone, in Lab.
    private static double[] BleachDirection(Mat bgr, Mat mask)
    {
        Scalar mean = Cv2.Mean(bgr, mask);
        double[] own = [Linear(mean.Val0), Linear(mean.Val1), Linear(mean.Val2)];
        double green = own[1] * 1.35;
        double[] bleached = [green * 0.43, green, green * 0.96];
        using Mat pair = new(1, 2, MatType.CV_32FC3);
        Span<Vec3f> colours = pair.AsRow<Vec3f>(0);
        colours[0] = new Vec3f(Encoded(own[0]), Encoded(own[1]), Encoded(own[2]));
        colours[1] = new Vec3f(
            Encoded((own[0] + bleached[0]) / 2), Encoded((own[1] + bleached[1]) / 2), Encoded((own[2] + bleached[2]) / 2));
        Cv2.CvtColor(pair, pair, ColorConversionCodes.BGR2Lab);
        colours = pair.AsRow<Vec3f>(0);
        return
        [
            2 * (colours[1].Item0 - colours[0].Item0),
            2 * (colours[1].Item1 - colours[0].Item1),
            2 * (colours[1].Item2 - colours[0].Item2),
        ];
    }

    private static double[] Whiten(double[,] noise, double[] direction)
    {
        using Mat left = new(3, 3, MatType.CV_64FC1);
        using Mat right = new(3, 1, MatType.CV_64FC1);
        for (int i = 0; i < 3; i++)
        {
            for (int j = 0; j < 3; j++)
            {
                left.AsRow<double>(i)[j] = noise[i, j] + (i == j ? 0.3 : 0);
            }

            right.AsRow<double>(i)[0] = direction[i];
        }

        using Mat solved = new();
        Cv2.Solve(left, right, solved, DecompTypes.SVD);
        double[] filter = [solved.AsRow<double>(0)[0], solved.AsRow<double>(1)[0], solved.AsRow<double>(2)[0]];
        double full = (filter[0] * direction[0]) + (filter[1] * direction[1]) + (filter[2] * direction[2]);
        for (int i = 0; i < 3; i++)
        {
            filter[i] /= Math.Max(full, 1e-6);
        }

        return filter;
    }

    private static double Linear(double level)
    {
        double c = level / 255;
        return c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4);
    }

    private static float Encoded(double linear)
    {
        double l = Math.Clamp(linear, 0, 1);
        return (float)(l <= 0.0031308 ? l * 12.92 : (1.055 * Math.Pow(l, 1 / 2.4)) - 0.055);
    }
}
