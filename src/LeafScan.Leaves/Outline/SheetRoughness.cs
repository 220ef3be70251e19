using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>
/// How rough the border of the frame is: gravel and bare ground can be as grey as paper, but never as smooth. It is looked at
/// small, where noise has gone and stones have not; a low quantile is taken, so that shadows and things at the frame do not count.
/// </summary>
internal static class SheetRoughness
{
    /// <summary>
    /// Roughness from which a "sheet" may be ground. On 96 rendered scenes and the 30 implants, 80 sheets had at most 0.0085, gravel,
    /// mulch and soil (26) at least 0.022.
    /// </summary>
    public const double MayBeGround = 0.0135;

    private const int LongSidePx = 240;

    private const double Quantile = 0.3;

    private const int Cells = 256;

    private const float Top = 0.064f;

    /// <summary>Distance of ln level from its own mean nearby (Gaussian, 2 pixels of the smaller picture) that 30 % of the border stays below; 0 for a photo under 480 pixels, whose noise would count as stones.</summary>
    /// <param name="planes">Small copy.</param>
    public static double Of(ColourPlanes planes)
    {
        double scale = LongSidePx / (double)Math.Max(planes.Size.Width, planes.Size.Height);
        if (scale > 0.5)
        {
            return 0;
        }

        using Mat level = new();
        Cv2.Resize(planes.Level, level, default, scale, scale, InterpolationFlags.Area);
        using Mat off = new();
        Cv2.GaussianBlur(level, off, default, 2);
        Cv2.Absdiff(level, off, off);
        int[] counts = new int[Cells];
        int rows = off.Rows;
        int border = Math.Max(2, Math.Min(off.Cols, rows) / 12);
        int seen = 0;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> row = off.AsRow<float>(y);
            if (y < border || y >= rows - border)
            {
                seen += Count(row, counts);
            }
            else
            {
                seen += Count(row[..border], counts) + Count(row[^border..], counts);
            }
        }

        int below = 0;
        int cell = 0;
        while (cell < Cells - 1 && (below += counts[cell]) < Quantile * seen)
        {
            cell++;
        }

        return (cell + 0.5) * Top / Cells;
    }

    private static int Count(ReadOnlySpan<float> values, int[] counts)
    {
        foreach (float value in values)
        {
            counts[Math.Min(Cells - 1, (int)(value * (Cells / Top)))]++;
        }

        return values.Length;
    }
}
