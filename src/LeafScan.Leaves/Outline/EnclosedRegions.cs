using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>
/// Patches inside a leaf that look like sheet: a hole shows the sheet, flat and as bright as it lies beside the leaf; glare,
/// bleached tissue and specks are uneven or of another brightness and belong to the leaf.
/// </summary>
internal static class EnclosedRegions
{
    /// <summary>Fills every enclosed patch that is no hole.</summary>
    /// <param name="mask">255 leaf, 0 rest; changed.</param>
    /// <param name="paper">The sheet.</param>
    /// <param name="threshold">Colour distance that parts leaf from sheet.</param>
    public static void Fill(Mat mask, PaperModel paper, double threshold)
    {
        using Mat rest = new();
        Cv2.BitwiseNot(mask, rest);
        using Mat labels = new();
        using Mat stats = new();
        using Mat centroids = new();
        int count = Cv2.ConnectedComponentsWithStats(rest, labels, stats, centroids, PixelConnectivity.Connectivity4);
        bool[] fill = new bool[count];
        for (int i = 1; i < count; i++)
        {
            ReadOnlySpan<int> s = stats.AsRow<int>(i);
            Rect box = new(s[0], s[1], s[2], s[3]);
            bool atFrame = box.Left == 0 || box.Top == 0 || box.Right == mask.Cols || box.Bottom == mask.Rows;
            fill[i] = !atFrame && !ShowsSheet(labels, i, box, s[4], paper, threshold);
        }

        int rows = mask.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<int> label = labels.AsRow<int>(y);
            Span<byte> to = mask.AsRow<byte>(y);
            for (int x = 0; x < to.Length; x++)
            {
                if (fill[label[x]])
                {
                    to[x] = 255;
                }
            }
        }
    }

    private static bool ShowsSheet(Mat labels, int label, Rect box, int area, PaperModel paper, double threshold)
    {
        if (area < 6)
        {
            return false;
        }

        double sum = 0;
        double squares = 0;
        double rgSum = 0;
        double bgSum = 0;
        for (int y = box.Top; y < box.Bottom; y++)
        {
            ReadOnlySpan<int> id = labels.AsRow<int>(y);
            ReadOnlySpan<float> level = paper.LevelOff.AsRow<float>(y);
            ReadOnlySpan<float> rg = paper.RedGreenOff.AsRow<float>(y);
            ReadOnlySpan<float> bg = paper.BlueGreenOff.AsRow<float>(y);
            for (int x = box.Left; x < box.Right; x++)
            {
                if (id[x] == label)
                {
                    sum += level[x];
                    squares += level[x] * level[x];
                    rgSum += rg[x];
                    bgSum += bg[x];
                }
            }
        }

        double mean = sum / area;
        double scatter = Math.Sqrt(Math.Max(0, (squares / area) - (mean * mean)));
        double colour = Math.Sqrt((rgSum * rgSum) + (bgSum * bgSum)) / area;
        return colour < 0.8 * threshold && mean is > -1.6 and < 0.25 && scatter < 0.35;
    }
}
