using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>
/// How much a colour is that of a living leaf: green, or yellow without the red of soil, never the blue of sky. The steps lie
/// between what was seen on soil, hands and leaves in field photos; there is no source beyond that.
/// </summary>
internal static class LeafColour
{
    /// <summary>0..1 for every pixel, 32-bit float, size of the planes.</summary>
    public static Mat Of(ColourPlanes planes)
    {
        Mat likeness = new(planes.Size, MatType.CV_32FC1);
        int rows = likeness.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> rg = planes.RedToGreen.AsRow<float>(y);
            ReadOnlySpan<float> bg = planes.BlueToGreen.AsRow<float>(y);
            Span<float> to = likeness.AsRow<float>(y);
            for (int x = 0; x < to.Length; x++)
            {
                float green = Below(rg[x], -0.1f, 0.08f);
                float yellow = Below(rg[x], 0.12f, 0.06f) * Below(bg[x], -0.9f, 0.15f);
                to[x] = Math.Max(green, yellow) * Below(bg[x], 0.22f, 0.05f);
            }
        }

        return likeness;
    }

    private static float Below(float value, float step, float width) => 1 / (1 + MathF.Exp((value - step) / width));
}
