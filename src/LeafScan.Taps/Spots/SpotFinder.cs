using LeafScan.Taps.Paper;
using OpenCvSharp;

namespace LeafScan.Taps.Spots;

/// <summary>Finds the dark things on the paper: connected pixels above the noise, parted where two touch.</summary>
internal static class SpotFinder
{
    // A photo of leaf mould is no tap sheet; this many things are more than enough to say so.
    private const int Most = 20_000;

    /// <summary>Finds all spots, the heaviest first.</summary>
    /// <param name="map">Shade of the photo.</param>
    /// <param name="threshold">Least smoothed shade, 0..1.</param>
    /// <param name="largestPx">Longest thing that may be a mite, pixels.</param>
    public static IReadOnlyList<Spot> Find(ShadeMap map, double threshold, double largestPx)
    {
        using Mat dark = new();
        Cv2.Compare(map.Shade, new Scalar(threshold * ShadeMap.One), dark, CmpTypes.GT);
        Cv2.BitwiseAnd(dark, map.Judged, dark);
        using Mat labels = new();
        using Mat stats = new();
        using Mat middles = new();
        int count = Cv2.ConnectedComponentsWithStats(dark, labels, stats, middles, PixelConnectivity.Connectivity8, MatType.CV_32SC1);
        List<Spot> spots = [];
        for (int label = 1; label < Math.Min(count, Most); label++)
        {
            Span<int> s = stats.AsRow<int>(label);
            Rect box = new(s[0], s[1], s[2], s[3]);
            if (s[4] >= 2)
            {
                Measure(map.Shade, labels, label, box, threshold, largestPx, spots);
            }
        }

        return [.. spots.OrderByDescending(spot => spot.Mass)];
    }

    private static void Measure(Mat shade, Mat labels, int label, Rect box, double threshold, double largestPx, List<Spot> spots)
    {
        bool large = Math.Max(box.Width, box.Height) > (2 * largestPx) + 6;
        List<Peak> peaks = large ? [] : SpotParting.Peaks(shade, labels, label, box, threshold);
        Rect wide = new Rect(box.X - 2, box.Y - 2, box.Width + 4, box.Height + 4) & new Rect(0, 0, shade.Cols, shade.Rows);
        SpotSums[] sums = [.. Enumerable.Range(0, Math.Max(1, peaks.Count)).Select(_ => new SpotSums())];
        for (int y = wide.Top; y < wide.Bottom; y++)
        {
            Span<short> values = shade.AsRow<short>(y);
            Span<int> owners = labels.AsRow<int>(y);
            for (int x = wide.Left; x < wide.Right; x++)
            {
                // The faint rim below the threshold belongs to the thing as well.
                if (values[x] > 0 && (owners[x] == label || owners[x] == 0))
                {
                    sums[Nearest(peaks, x, y)].Add(x, y, values[x] / ShadeMap.One);
                }
            }
        }

        foreach (SpotSums sum in sums)
        {
            if (sum.ToSpot(large, largestPx) is { } spot)
            {
                spots.Add(spot);
            }
        }
    }

    private static int Nearest(List<Peak> peaks, int x, int y)
    {
        int best = 0;
        int least = int.MaxValue;
        for (int i = 0; i < peaks.Count && peaks.Count > 1; i++)
        {
            int dx = peaks[i].X - x;
            int dy = peaks[i].Y - y;
            if ((dx * dx) + (dy * dy) < least)
            {
                least = (dx * dx) + (dy * dy);
                best = i;
            }
        }

        return best;
    }
}
