using LeafScan.Taps.Paper;
using OpenCvSharp;

namespace LeafScan.Taps.Spots;

/// <summary>A darkest pixel.</summary>
/// <param name="X">Pixels to the right.</param>
/// <param name="Y">Pixels down.</param>
/// <param name="Value">Shade as in <see cref="ShadeMap"/>.</param>
internal readonly record struct Peak(int X, int Y, int Value);

/// <summary>Finds the separate dark middles of one connected thing.</summary>
internal static class SpotParting
{
    // Two middles are two things when the way between them gets this much paler than the paler one.
    private const double Valley = 0.6;

    /// <summary>Middles that are parted by a pale valley, the darkest first.</summary>
    public static List<Peak> Peaks(Mat shade, Mat labels, int label, Rect box, double threshold)
    {
        List<Peak> found = [];
        int low = (int)(threshold * ShadeMap.One);
        int rows = Math.Min(shade.Rows - 1, box.Bottom);
        int cols = Math.Min(shade.Cols - 1, box.Right);
        for (int y = Math.Max(1, box.Top); y < rows; y++)
        {
            Span<int> owners = labels.AsRow<int>(y);
            Span<short> above = shade.AsRow<short>(y - 1);
            Span<short> here = shade.AsRow<short>(y);
            Span<short> below = shade.AsRow<short>(y + 1);
            for (int x = Math.Max(1, box.Left); x < cols; x++)
            {
                short v = here[x];
                if (owners[x] == label && v >= low
                    && v > above[x - 1] && v > above[x] && v > above[x + 1] && v > here[x - 1]
                    && v >= here[x + 1] && v >= below[x - 1] && v >= below[x] && v >= below[x + 1])
                {
                    found.Add(new Peak(x, y, v));
                }
            }
        }

        List<Peak> kept = [];
        foreach (Peak peak in found.OrderByDescending(p => p.Value))
        {
            if (kept.TrueForAll(other => Between(shade, other, peak) < Valley * peak.Value))
            {
                kept.Add(peak);
            }
        }

        return kept;
    }

    private static int Between(Mat shade, Peak a, Peak b)
    {
        int steps = Math.Max(Math.Abs(a.X - b.X), Math.Abs(a.Y - b.Y));
        int least = int.MaxValue;
        for (int i = 0; i <= steps; i++)
        {
            int x = a.X + ((b.X - a.X) * i / Math.Max(1, steps));
            int y = a.Y + ((b.Y - a.Y) * i / Math.Max(1, steps));
            least = Math.Min(least, shade.AsRow<short>(y)[x]);
        }

        return least;
    }
}
