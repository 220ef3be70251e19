using LeafScan.Taps.Paper;
using OpenCvSharp;

namespace LeafScan.Taps.Spots;

/// <summary>
/// How far the camera spread a point: read off the sharpest dark things of a photo. The second moments of a speck say too
/// little, since a faint one is cut off at the threshold and a thread falls into pieces; but how fast shade falls beside the
/// darkest pixel is the camera's doing even for those.
/// </summary>
internal static class CameraSpread
{
    // Two pixels from the peak: near enough that a neighbour is not yet felt, far enough for the fall to stand out of noise.
    private const int Reach = 2;

    // One in ten things is as small or as thin as a point; a single odd one must not say it.
    private const int OneIn = 10;

    /// <summary>
    /// Variance of the spread in pixels squared, with <see cref="ShadeMap.Smoothing"/> in it, along the direction in which it
    /// is least: a shaken hand smears one direction only. 0 when nothing dark is there to say it.
    /// </summary>
    /// <param name="shade">Shade of the photo, 16-bit.</param>
    /// <param name="spots">All its dark things, print included.</param>
    public static double Of(Mat shade, IReadOnlyList<Spot> spots)
    {
        List<double> spreads = new(spots.Count);
        foreach (Spot spot in spots)
        {
            if (spot.PeakX >= Reach && spot.PeakY >= Reach && spot.PeakX < shade.Cols - Reach && spot.PeakY < shade.Rows - Reach)
            {
                spreads.Add(At(shade, spot.PeakX, spot.PeakY));
            }
        }

        spreads.Sort();
        return spreads.Count == 0 ? 0 : spreads[spreads.Count / OneIn];
    }

    private static double At(Mat shade, int x, int y)
    {
        Span<short> above = shade.AsRow<short>(y - Reach)[(x - Reach)..(x + Reach + 1)];
        Span<short> here = shade.AsRow<short>(y)[(x - Reach)..(x + Reach + 1)];
        Span<short> below = shade.AsRow<short>(y + Reach)[(x - Reach)..(x + Reach + 1)];
        double peak = here[Reach];
        double along = Math.Min(Fall(peak, here[0] + here[^1], Reach * Reach), Fall(peak, above[Reach] + below[Reach], Reach * Reach));
        double slanted = Math.Min(Fall(peak, above[0] + below[^1], 2 * Reach * Reach), Fall(peak, above[^1] + below[0], 2 * Reach * Reach));
        return Math.Min(along, slanted);
    }

    // Of a Gaussian the logarithm falls by the squared way over twice the variance.
    private static double Fall(double peak, double bothSides, double squaredWay)
    {
        double side = bothSides / 2;
        return side <= 0 ? 0 : side >= peak ? double.MaxValue : squaredWay / (2 * Math.Log(peak / side));
    }
}
