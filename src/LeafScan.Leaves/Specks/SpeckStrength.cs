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

    /// <summary>The map, 32-bit float, size of the patch, 0 outside the leaf.</summary>
    public static Mat Of(LeafPatch patch, Mat weight)
    {
        using Mat lab = ToLab(patch.Bgr);
        using Mat around = Neighbourhood(lab, patch.Mask);
        using Mat difference = new();
        Cv2.Subtract(lab, around, difference);
        double[] direction = BleachDirection(patch);
        double[,] noise = QuietBlocks.Covariance(difference, patch.Mask);
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

    private static Mat ToLab(Mat bgr)
    {
        Mat lab = new();
        bgr.ConvertTo(lab, MatType.CV_32FC3, 1 / 255.0);
        Cv2.CvtColor(lab, lab, ColorConversionCodes.BGR2Lab);
        return lab;
    }

    // Mean colour around each pixel with pale pixels thrown out, worked on a quarter-size copy.
    private static Mat Neighbourhood(Mat lab, Mat mask)
    {
        Size size = new(Math.Max(1, lab.Cols / 4), Math.Max(1, lab.Rows / 4));
        using Mat small = new();
        using Mat smallMask = new();
        Cv2.Resize(lab, small, size, 0, 0, InterpolationFlags.Area);
        Cv2.Resize(mask, smallMask, size, 0, 0, InterpolationFlags.Area);
        Cv2.Threshold(smallMask, smallMask, 242, 255, ThresholdTypes.Binary);
        using Mat inside = MaskedBlur.Weights(smallMask);
        using Mat weight = inside.Clone();
        Mat mean = MaskedBlur.Gaussian(small, weight, NeighbourhoodSigmaPx / 4);
        for (int round = 0; round < 2; round++)
        {
            RejectPale(small, mean, inside, weight);
            mean.Dispose();
            mean = MaskedBlur.Gaussian(small, weight, NeighbourhoodSigmaPx / 4);
        }

        using (mean)
        {
            Mat full = new();
            Cv2.Resize(mean, full, lab.Size(), 0, 0, InterpolationFlags.Linear);
            return full;
        }
    }

    private static void RejectPale(Mat small, Mat mean, Mat inside, Mat weight)
    {
        List<float> sizes = [];
        using Mat pale = new(small.Size(), MatType.CV_32FC1);
        int rows = small.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<Vec3f> s = small.AsRow<Vec3f>(y);
            ReadOnlySpan<Vec3f> m = mean.AsRow<Vec3f>(y);
            ReadOnlySpan<float> w = inside.AsRow<float>(y);
            Span<float> p = pale.AsRow<float>(y);
            for (int x = 0; x < p.Length; x++)
            {
                p[x] = s[x].Item0 - m[x].Item0 + (s[x].Item1 - m[x].Item1);
                if (w[x] > 0)
                {
                    sizes.Add(MathF.Abs(p[x]));
                }
            }
        }

        if (sizes.Count == 0)
        {
            return;
        }

        sizes.Sort();
        float spread = Math.Max(1.48f * sizes[sizes.Count / 2], 0.3f);
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> p = pale.AsRow<float>(y);
            ReadOnlySpan<float> inner = inside.AsRow<float>(y);
            Span<float> w = weight.AsRow<float>(y);
            for (int x = 0; x < p.Length; x++)
            {
                w[x] = inner[x] / (1 + MathF.Exp(Math.Clamp(((p[x] / spread) - 1) * 3, -30, 30)));
            }
        }
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
