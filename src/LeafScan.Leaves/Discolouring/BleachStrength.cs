using System.Numerics;
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
    public static Mat Of(ColourRatios ratios, SoundColour sound)
    {
        Mat strength = new(ratios.RedToGreen.Size(), MatType.CV_32FC1);
        PixelRows<float> to = new(strength), red = new(ratios.RedToGreen), blue = new(ratios.BlueToGreen);
        Bands.Run(strength.Rows, (first, end) =>
        {
            float[] ownRed = new float[to.Cols];
            float[] ownBlue = new float[to.Cols];
            for (int y = first; y < end; y++)
            {
                sound.Row(y, ownRed, ownBlue);
                Row(red[y], blue[y], ownRed, ownBlue, to[y]);
            }
        });
        return strength;
    }

    private static void Row(ReadOnlySpan<float> red, ReadOnlySpan<float> blue, ReadOnlySpan<float> ownRed, ReadOnlySpan<float> ownBlue, Span<float> to)
    {
        int x = 0;
        for (; x <= to.Length - Vector<float>.Count; x += Vector<float>.Count)
        {
            Strength(new Vector<float>(red[x..]), new Vector<float>(blue[x..]), new Vector<float>(ownRed[x..]), new Vector<float>(ownBlue[x..])).CopyTo(to[x..]);
        }

        for (; x < to.Length; x++)
        {
            to[x] = Strength(new Vector<float>(red[x]), new Vector<float>(blue[x]), new Vector<float>(ownRed[x]), new Vector<float>(ownBlue[x]))[0];
        }
    }

    private static Vector<float> Strength(Vector<float> red, Vector<float> blue, Vector<float> ownRed, Vector<float> ownBlue)
    {
        // The way from own to bleached colour, at least a visible step so that gold leaves do not divide by nothing.
        Vector<float> wayRed = Vector.Max(new Vector<float>((float)BleachedRedToGreen) - ownRed, new Vector<float>(0.2f));
        Vector<float> wayBlue = Vector.Min(new Vector<float>((float)BleachedBlueToGreen) - ownBlue, Vector<float>.Zero);
        Vector<float> weightRed = wayRed / (float)(SigmaRedToGreen * SigmaRedToGreen);
        Vector<float> weightBlue = wayBlue / (float)(SigmaBlueToGreen * SigmaBlueToGreen);
        Vector<float> full = (wayRed * weightRed) + (wayBlue * weightBlue);
        return (((red - ownRed) * weightRed) + ((blue - ownBlue) * weightBlue)) / full;
    }
}
