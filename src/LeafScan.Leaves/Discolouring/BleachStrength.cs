using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Discolouring;

/// <summary>
/// How far each pixel has gone from the leaf's own sound colour (0) towards bleached, chlorophyll-free tissue (1).
/// </summary>
internal static class BleachStrength
{
    // Bleached leaf tissue reflects red nearly as well as green and blue less than half as well: carotenoids stay when
    // chlorophyll goes. Measured on painted and on rendered leaves; the exact figures are a design choice.
    internal const double BleachedRedToGreen = -0.05;
    internal const double BleachedBlueToGreen = -0.88;

    // Sound tissue varies in ln(R/G) and ln(B/G) by about these amounts; gloss moves both up together.
    private const double SigmaRedToGreen = 0.12;
    private const double SigmaBlueToGreen = 0.30;

    /// <summary>The map, 32-bit float, about 0 on sound tissue and 1 on bleached tissue; may leave 0..1.</summary>
    public static Mat Of(ColourRatios ratios, Mat surface)
    {
        Mat strength = new(ratios.RedToGreen.Size(), MatType.CV_32FC1);
        int rows = strength.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> rg = ratios.RedToGreen.AsRow<float>(y);
            ReadOnlySpan<float> bg = ratios.BlueToGreen.AsRow<float>(y);
            ReadOnlySpan<Vec2f> own = surface.AsRow<Vec2f>(y);
            Span<float> s = strength.AsRow<float>(y);
            for (int x = 0; x < s.Length; x++)
            {
                // The way from own to bleached colour, at least a visible step so that gold leaves do not divide by nothing.
                float wayRed = MathF.Max((float)BleachedRedToGreen - own[x].Item0, 0.2f);
                float wayBlue = MathF.Min((float)BleachedBlueToGreen - own[x].Item1, 0f);
                float weightRed = wayRed / (float)(SigmaRedToGreen * SigmaRedToGreen);
                float weightBlue = wayBlue / (float)(SigmaBlueToGreen * SigmaBlueToGreen);
                float full = (wayRed * weightRed) + (wayBlue * weightBlue);
                s[x] = (((rg[x] - own[x].Item0) * weightRed) + ((bg[x] - own[x].Item1) * weightBlue)) / full;
            }
        }

        return strength;
    }
}
