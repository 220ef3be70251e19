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

    /// <summary>The map, 32-bit float, size of the patch, 0 outside the leaf.</summary>
    /// <param name="patch">The leaf.</param>
    /// <param name="lab">The patch in L*a*b*, 32-bit float.</param>
    /// <param name="weight">The mask as 0..1.</param>
    /// <param name="bleach">Bleach strength against the whole leaf's own colour.</param>
    public static Mat Of(LeafPatch patch, Mat lab, Mat weight, Mat bleach)
    {
        using Mat around = Neighbourhood(lab, patch.Mask, bleach);
        using Mat difference = new();
        Cv2.Subtract(lab, around, difference);
        double[] direction = BleachDirection(patch);
        using Mat sound = new();
        Cv2.Compare(bleach, Scalar.All(0.25), sound, CmpTypes.LT);
        Cv2.BitwiseAnd(sound, patch.Mask, sound);
        double[,] noise = QuietBlocks.Covariance(difference, sound);
        double[] filter = Whiten(noise, direction);

        using Mat row = new(1, 3, MatType.CV_32FC1);
        for (int i = 0; i < 3; i++)
        {
            row.AsRow<float>(0)[i] = (float)filter[i];
        }

        Mat strength = new();
        Cv2.Transform(difference, strength, row);
        Cv2.Multiply(strength, weight, strength);
        return strength;
    }

    // Mean colour around each pixel. Bleached pixels hardly count, so that a dense field of specks is not its own
    // neighbourhood; where everything is bleached (a yellow patch) they are all there is and count fully.
    private static Mat Neighbourhood(Mat lab, Mat mask, Mat bleach)
    {
        using Mat weight = new(mask.Size(), MatType.CV_32FC1);
        int rows = mask.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<byte> inside = mask.AsRow<byte>(y);
            ReadOnlySpan<float> b = bleach.AsRow<float>(y);
            Span<float> w = weight.AsRow<float>(y);
            for (int x = 0; x < w.Length; x++)
            {
                w[x] = inside[x] == 0 ? 0 : Math.Clamp((BleachedOut - b[x]) * 4, LeastWeight, 1);
            }
        }

        Size size = new(Math.Max(1, lab.Cols / 4), Math.Max(1, lab.Rows / 4));
        using Mat weights = new();
        Cv2.Merge([weight, weight, weight], weights);
        using Mat weighted = new();
        Cv2.Multiply(lab, weights, weighted);
        using Mat small = new();
        using Mat smallWeight = new();
        Cv2.Resize(weighted, small, size, 0, 0, InterpolationFlags.Area);
        Cv2.Resize(weights, smallWeight, size, 0, 0, InterpolationFlags.Area);
        Cv2.GaussianBlur(small, small, default, NeighbourhoodSigmaPx / 4);
        Cv2.GaussianBlur(smallWeight, smallWeight, default, NeighbourhoodSigmaPx / 4);
        Cv2.Add(smallWeight, Scalar.All(1e-6), smallWeight);
        Cv2.Divide(small, smallWeight, small);
        Mat full = new();
        Cv2.Resize(small, full, lab.Size(), 0, 0, InterpolationFlags.Linear);
        return full;
    }

    // From the leaf's median colour to the colour it has where chlorophyll is gone, in Lab.
    private static double[] BleachDirection(LeafPatch patch)
    {
        Scalar mean = Cv2.Mean(patch.Bgr, patch.Mask);
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
