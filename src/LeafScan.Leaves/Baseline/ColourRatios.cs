using OpenCvSharp;

namespace LeafScan.Leaves.Baseline;

/// <summary>
/// Colour as ratios of linear light, ln(R/G) and ln(B/G): a shadow or a slope dims all three channels alike and leaves the
/// ratios as they are, while loss of chlorophyll raises R/G. Owns its pictures.
/// </summary>
internal sealed class ColourRatios : IDisposable
{
    /// <summary>Keeps the logarithm finite in black pixels; linear light, 0..1.</summary>
    private const float Floor = 0.004f;

    private static readonly float[] LogLinear = BuildTable();

    private ColourRatios(Mat redToGreen, Mat blueToGreen)
    {
        RedToGreen = redToGreen;
        BlueToGreen = blueToGreen;
    }

    /// <summary>ln(R/G), 32-bit float.</summary>
    public Mat RedToGreen { get; }

    /// <summary>ln(B/G), 32-bit float.</summary>
    public Mat BlueToGreen { get; }

    /// <summary>Ratios of an 8-bit B, G, R picture in sRGB.</summary>
    public static ColourRatios Of(Mat bgr)
    {
        Mat redToGreen = new(bgr.Size(), MatType.CV_32FC1);
        Mat blueToGreen = new(bgr.Size(), MatType.CV_32FC1);
        PixelRows<Vec3b> from = new(bgr);
        PixelRows<float> red = new(redToGreen), blue = new(blueToGreen);
        Bands.Run(bgr.Rows, (first, end) =>
        {
            for (int y = first; y < end; y++)
            {
                Row(from[y], red[y], blue[y]);
            }
        });
        return new ColourRatios(redToGreen, blueToGreen);
    }

    private static void Row(ReadOnlySpan<Vec3b> from, Span<float> red, Span<float> blue)
    {
        float[] table = LogLinear;
        for (int x = 0; x < from.Length; x++)
        {
            Vec3b pixel = from[x];
            float green = table[pixel.Item1];
            red[x] = table[pixel.Item2] - green;
            blue[x] = table[pixel.Item0] - green;
        }
    }

    /// <inheritdoc />
    public void Dispose()
    {
        RedToGreen.Dispose();
        BlueToGreen.Dispose();
    }

    // IEC 61966-2-1 transfer curve, then the natural logarithm.
    private static float[] BuildTable()
    {
        float[] table = new float[256];
        for (int i = 0; i < 256; i++)
        {
            double c = i / 255.0;
            double linear = c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4);
            table[i] = (float)Math.Log(linear + Floor);
        }

        return table;
    }
}
