using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>
/// A picture as three planes of linear light: ln(R/G) and ln(B/G), which a shadow leaves nearly as they are, and the level
/// ln(0.2 R + 0.7 G + 0.1 B), which it lowers. Owns its planes.
/// </summary>
internal sealed class ColourPlanes : IDisposable
{
    /// <summary>Keeps logarithms finite and dark pixels quiet; linear light, 0..1.</summary>
    private const float Floor = 0.006f;

    private static readonly float[] Linear = BuildTable();

    private static readonly float[] LogLinear = Array.ConvertAll(Linear, v => MathF.Log(v + Floor));

    private ColourPlanes(Size size)
    {
        RedToGreen = new Mat(size, MatType.CV_32FC1);
        BlueToGreen = new Mat(size, MatType.CV_32FC1);
        Level = new Mat(size, MatType.CV_32FC1);
    }

    /// <summary>ln(R/G), 32-bit float.</summary>
    public Mat RedToGreen { get; }

    /// <summary>ln(B/G), 32-bit float.</summary>
    public Mat BlueToGreen { get; }

    /// <summary>ln of the luminance, 32-bit float, at most about 0.</summary>
    public Mat Level { get; }

    /// <summary>Width and height.</summary>
    public Size Size => Level.Size();

    /// <summary>Planes of an 8-bit B, G, R picture in sRGB.</summary>
    public static ColourPlanes Of(Mat bgr)
    {
        ColourPlanes planes = new(bgr.Size());
        Bands.Run(bgr.Rows, (first, end) =>
        {
            for (int y = first; y < end; y++)
            {
                ReadOnlySpan<Vec3b> row = bgr.AsRow<Vec3b>(y);
                Span<float> rg = planes.RedToGreen.AsRow<float>(y);
                Span<float> bg = planes.BlueToGreen.AsRow<float>(y);
                Span<float> level = planes.Level.AsRow<float>(y);
                for (int x = 0; x < row.Length; x++)
                {
                    (rg[x], bg[x], level[x]) = Read(row[x]);
                }
            }
        });
        return planes;
    }

    /// <summary>The three values of one pixel.</summary>
    public static (float RedToGreen, float BlueToGreen, float Level) Read(Vec3b pixel)
    {
        float green = LogLinear[pixel.Item1];
        float light = (0.2f * Linear[pixel.Item2]) + (0.7f * Linear[pixel.Item1]) + (0.1f * Linear[pixel.Item0]);
        return (LogLinear[pixel.Item2] - green, LogLinear[pixel.Item0] - green, MathF.Log(light + Floor));
    }

    /// <inheritdoc />
    public void Dispose()
    {
        RedToGreen.Dispose();
        BlueToGreen.Dispose();
        Level.Dispose();
    }

    // IEC 61966-2-1 transfer curve.
    private static float[] BuildTable()
    {
        float[] table = new float[256];
        for (int i = 0; i < 256; i++)
        {
            double c = i / 255.0;
            table[i] = (float)(c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4));
        }

        return table;
    }
}
