using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>
/// Patches inside a leaf that look like sheet: a hole shows the sheet, flat and as bright as it lies beside the leaf; glare,
/// bleached tissue and specks are uneven or of another brightness and belong to the leaf.
/// </summary>
internal static class EnclosedRegions
{
    /// <summary>Most scatter of ln level inside a hole.</summary>
    private const double FlatScatter = 0.16;

    /// <summary>Inner radius below which a patch is never taken for a hole, pixels of the small copy.</summary>
    private const double LeastRadiusPx = 1.9;

    /// <summary>Below this inner radius a patch as bright as the lit sheet may as well be a pale speck.</summary>
    private const double TinyRadiusPx = 4;

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

        // A chain of pale pixels along a vein is thin; a hole is compact.
        using Mat labelled = new(labels, box);
        using Mat own = new();
        Cv2.InRange(labelled, new Scalar(label), new Scalar(label), own);
        using Mat framed = new();
        Cv2.CopyMakeBorder(own, framed, 1, 1, 1, 1, BorderTypes.Constant, Scalar.All(0));
        using Mat depth = new();
        Cv2.DistanceTransform(framed, depth, DistanceTypes.L2, DistanceTransformMasks.Mask3);
        Cv2.MinMaxLoc(depth, out _, out double inner);
        bool tiny = inner < TinyRadiusPx;
        if (inner < LeastRadiusPx || area > (tiny ? 3 : 6) * Math.PI * inner * inner)
        {
            return false;
        }

        // The rim is mixed with leaf: judge the inside.
        using Mat inside = new();
        Cv2.Compare(depth, new Scalar(Math.Min(2, 0.45 * inner) + 0.2), inside, CmpTypes.GT);
        using Mat core = new(inside, new Rect(1, 1, box.Width, box.Height));
        using Mat level = new(paper.LevelOff, box);
        using Mat redGreen = new(paper.RedGreenOff, box);
        using Mat blueGreen = new(paper.BlueGreenOff, box);
        Cv2.MeanStdDev(level, out Scalar mean, out Scalar scatter, core);
        double rg = Cv2.Mean(redGreen, core).Val0;
        double bg = Cv2.Mean(blueGreen, core).Val0;
        double colour = Math.Sqrt((rg * rg) + (bg * bg));
        if (tiny && mean.Val0 > -0.2)
        {
            return false;
        }

        return colour < (tiny ? 0.5 : 0.7) * threshold && mean.Val0 is > -1.6 and < 0.12 && scatter.Val0 < FlatScatter;
    }
}
