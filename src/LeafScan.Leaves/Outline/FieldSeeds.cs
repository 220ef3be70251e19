using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>First guesses for the graph cut of a field photo, as <see cref="GrabCutClasses"/>.</summary>
internal static class FieldSeeds
{
    /// <summary>Leaf where leaf colour, focus and nearness to the middle come together.</summary>
    /// <param name="likeness">Leaf colour, 0..1.</param>
    /// <param name="sharp">Local sharpness.</param>
    /// <param name="leafPixels">Number of pixels guessed to be leaf.</param>
    public static Mat Central(Mat likeness, Mat sharp, out int leafPixels)
    {
        Size size = likeness.Size();
        double meanSharp = Cv2.Mean(sharp).Val0 + 1e-3;
        Mat seeds = new(size, MatType.CV_8UC1);
        leafPixels = 0;
        for (int y = 0; y < size.Height; y++)
        {
            ReadOnlySpan<float> like = likeness.AsRow<float>(y);
            ReadOnlySpan<float> sh = sharp.AsRow<float>(y);
            Span<byte> to = seeds.AsRow<byte>(y);
            double v = ((2.0 * y) / size.Height) - 1;
            for (int x = 0; x < to.Length; x++)
            {
                double u = ((2.0 * x) / size.Width) - 1;
                GrabCutClasses guess = Guess(u, v, like[x], Math.Min(2, sh[x] / meanSharp) / 2);
                leafPixels += guess is GrabCutClasses.FGD or GrabCutClasses.PR_FGD ? 1 : 0;
                to[x] = (byte)guess;
            }
        }

        return seeds;
    }

    /// <summary>Leaf where the colour is, wherever it lies: for a leaf that the middle and the focus do not show.</summary>
    public static Mat ByColour(Mat likeness)
    {
        using Mat leaf = new();
        Cv2.Compare(likeness, new Scalar(0.5), leaf, CmpTypes.GT);
        Mat seeds = new(likeness.Size(), MatType.CV_8UC1, Scalar.All((int)GrabCutClasses.PR_BGD));
        seeds.SetTo(Scalar.All((int)GrabCutClasses.PR_FGD), leaf);
        return seeds;
    }

    /// <summary>Local sharpness: blurred strength of second differences.</summary>
    /// <param name="bgr">Small copy.</param>
    /// <param name="size">Size of the result.</param>
    public static Mat Sharpness(Mat bgr, Size size)
    {
        using Mat grey = new();
        Cv2.CvtColor(bgr, grey, ColorConversionCodes.BGR2GRAY);
        using Mat edges = new();
        Cv2.Laplacian(grey, edges, MatType.CV_32F, 3);
        using Mat energy = Cv2.Abs(edges).ToMat();
        Mat local = new();
        Cv2.Resize(energy, local, size, 0, 0, InterpolationFlags.Area);
        Cv2.GaussianBlur(local, local, default, Math.Max(size.Width, size.Height) / 50.0);
        return local;
    }

    // Weights and steps were set by eye on the cut-out, bean and chilli photos; no source beyond that.
    private static GrabCutClasses Guess(double u, double v, double leafColour, double focus)
    {
        double centre = Math.Exp(-((u * u) + (v * v)) / 0.5);
        double score = (0.45 * centre) + (0.3 * leafColour) + (0.25 * focus);
        if ((score > 0.62 && leafColour > 0.5) || (leafColour > 0.6 && focus > 0.6 && centre > 0.12))
        {
            return score > 0.8 ? GrabCutClasses.FGD : GrabCutClasses.PR_FGD;
        }

        bool rim = Math.Abs(u) > 0.97 || Math.Abs(v) > 0.97;
        return score < 0.25 || (rim && score <= 0.4) ? GrabCutClasses.BGD : GrabCutClasses.PR_BGD;
    }
}
