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
        int rows = bgr.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<Vec3b> row = bgr.AsRow<Vec3b>(y);
            Span<float> rg = redToGreen.AsRow<float>(y);
            Span<float> bg = blueToGreen.AsRow<float>(y);
            for (int x = 0; x < row.Length; x++)
            {
                Vec3b pixel = row[x];
                float green = LogLinear[pixel.Item1];
                rg[x] = LogLinear[pixel.Item2] - green;
                bg[x] = LogLinear[pixel.Item0] - green;
            }
        }

        return new ColourRatios(redToGreen, blueToGreen);
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
