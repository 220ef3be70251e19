using OpenCvSharp;

namespace LeafScan.Leaves.Baseline;

/// <summary>Smoothing that lets only chosen pixels count (normalised convolution, Knutsson and Westin 1993).</summary>
internal static class MaskedBlur
{
    /// <summary>Gaussian mean of <paramref name="source"/> over pixels weighted by <paramref name="weight"/>.</summary>
    /// <param name="source">32-bit float, any number of channels.</param>
    /// <param name="weight">32-bit float, one channel, 0..1.</param>
    /// <param name="sigmaPx">Width of the Gaussian in pixels.</param>
    public static Mat Gaussian(Mat source, Mat weight, double sigmaPx)
    {
        using Mat density = new();
        Cv2.GaussianBlur(weight, density, default, sigmaPx);
        return Gaussian(source, weight, density, sigmaPx);
    }

    /// <summary>The same with the blurred weight at hand, for several sources with one mask.</summary>
    public static Mat Gaussian(Mat source, Mat weight, Mat blurredWeight, double sigmaPx)
    {
        int channels = source.Channels();
        using Mat weights = Spread(weight, channels);
        using Mat density = Spread(blurredWeight, channels);
        Mat result = new();
        Cv2.Multiply(source, weights, result);
        Cv2.GaussianBlur(result, result, default, sigmaPx);
        Cv2.Add(density, Scalar.All(1e-6), density);
        Cv2.Divide(result, density, result);
        return result;
    }

    /// <summary>A 0/255 mask as 0/1 float weights.</summary>
    public static Mat Weights(Mat mask)
    {
        Mat weight = new();
        mask.ConvertTo(weight, MatType.CV_32FC1, 1 / 255.0);
        return weight;
    }

    private static Mat Spread(Mat one, int channels)
    {
        Mat spread = new();
        if (channels == 1)
        {
            one.CopyTo(spread);
        }
        else
        {
            Cv2.Merge(Enumerable.Repeat(one, channels).ToArray(), spread);
        }

        return spread;
    }
}
