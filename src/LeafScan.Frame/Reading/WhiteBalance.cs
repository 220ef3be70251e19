using OpenCvSharp;

namespace LeafScan.Frame.Reading;

/// <summary>
/// Makes a white neutral: one gain for each channel in linear light (von Kries' rule in the camera's own primaries), none of them darkening.
/// </summary>
internal static class WhiteBalance
{
    // More than a light bulb asks for: beyond it there is more noise than colour in the weakest channel.
    private const double MostGain = 6;

    /// <summary>A copy of the photo in which the white is neutral; the caller disposes it.</summary>
    /// <param name="bgr">The photo, 8-bit B, G, R, sRGB.</param>
    /// <param name="white">The white as it is seen, linear light 0..1, B, G, R.</param>
    public static Mat Apply(Mat bgr, Vec3d white)
    {
        double[] channels = [white.Item0, white.Item1, white.Item2];
        byte[] table = new byte[256 * 3];
        for (int i = 0; i < table.Length; i++)
        {
            double gain = Math.Min(MostGain, channels.Max() / Math.Max(channels[i % 3], 1e-3));
            table[i] = Level(Encoded(Linear(i / 3 / 255.0) * gain));
        }

        using Mat lut = Mat.FromPixelData(1, 256, MatType.CV_8UC3, table);
        Mat balanced = new();
        Cv2.LUT(bgr, lut, balanced);
        return balanced;
    }

    /// <summary>An encoded value 0..1 as an 8-bit level.</summary>
    public static byte Level(double encoded) => (byte)Math.Round(Math.Clamp(encoded, 0, 1) * 255);

    /// <summary>Mean levels 0..255 as linear light 0..1.</summary>
    public static Vec3d Linear(Scalar bgr) => new(Linear(bgr.Val0 / 255), Linear(bgr.Val1 / 255), Linear(bgr.Val2 / 255));

    /// <summary>sRGB value 0..1 to linear light (IEC 61966-2-1).</summary>
    public static double Linear(double v) => v <= 0.04045 ? v / 12.92 : Math.Pow((v + 0.055) / 1.055, 2.4);

    /// <summary>Linear light to the sRGB value, 0..1.</summary>
    public static double Encoded(double v) => v <= 0.0031308 ? 12.92 * v : (1.055 * Math.Pow(v, 1 / 2.4)) - 0.055;
}
