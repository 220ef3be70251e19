using LeafScan.Frame;
using LeafScan.Taps.Paper;
using OpenCvSharp;

namespace LeafScan.Taps.Lining;

/// <summary>
/// Tells two files of one exposure (saved again, sent through a messenger) from two exposures: noise is new in each
/// exposure, so two of them differ by more than either's own noise, and a copy hardly differs.
/// </summary>
internal static class Copies
{
    private const double SamePx = 0.15;
    private const double CopyShare = 0.75;

    /// <summary>True when the second photo looks like a copy of the first.</summary>
    /// <param name="first">Shade of the first photo.</param>
    /// <param name="second">Shade of the second.</param>
    /// <param name="map">From the first photo to the second.</param>
    public static bool Are(ShadeMap first, ShadeMap second, PlaneMap map)
    {
        if (first.Shade.Size() != second.Shade.Size() || !IsIdentity(map, first.Shade.Cols, first.Shade.Rows))
        {
            return false;
        }

        using Mat difference = new();
        Cv2.Subtract(first.Shade, second.Shade, difference);
        using Mat both = new();
        Cv2.BitwiseAnd(first.Judged, second.Judged, both);

        // Independent noise would give the root of two times the noise of one.
        return ShadeMap.NoiseOf(difference, both) < CopyShare * Math.Sqrt((first.Noise * first.Noise) + (second.Noise * second.Noise));
    }

    private static bool IsIdentity(PlaneMap map, int width, int height)
    {
        foreach (Point2d at in (Point2d[])[new(0, 0), new(width, 0), new(0, height), new(width, height)])
        {
            Point2d off = map.Map(at.X, at.Y) - at;
            if ((off.X * off.X) + (off.Y * off.Y) > SamePx * SamePx)
            {
                return false;
            }
        }

        return true;
    }
}
