using OpenCvSharp;

namespace LeafScan.Leaves.Views;

/// <summary>Takes the difference of light between two lined-up photos off: what stands around the plant is the same in both.</summary>
internal static class LightBetween
{
    private const int LeastPixels = 2000;

    // Farther apart than a change of light makes it, something else stands there now.
    private const double Most = 2;

    /// <summary>Multiplies each channel of a photo so that its surroundings have the other's level.</summary>
    /// <param name="pixels">8-bit B, G, R; changed.</param>
    /// <param name="like">The photo it shall be like, lined up with it.</param>
    /// <param name="seen">255 where both photos show something.</param>
    /// <param name="plant">255 on the plant, which may have changed.</param>
    public static void Match(Mat pixels, Mat like, Mat seen, Mat plant)
    {
        using Mat around = seen.Clone();
        using Mat wide = new();
        using Mat disc = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(15, 15));
        Cv2.Dilate(plant, wide, disc);
        around.SetTo(Scalar.All(0), wide);
        if (Cv2.CountNonZero(around) < LeastPixels)
        {
            return;
        }

        Scalar here = Cv2.Mean(pixels, around);
        Scalar there = Cv2.Mean(like, around);
        double Gain(int channel) => here[channel] < 1 ? 1 : Math.Clamp(there[channel] / here[channel], 1 / Most, Most);
        Cv2.Multiply(pixels, new Scalar(Gain(0), Gain(1), Gain(2)), pixels);
    }
}
