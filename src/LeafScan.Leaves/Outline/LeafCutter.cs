using LeafScan.Leaves.Baseline;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>Parts the small copy's mask into leaves and gives each its full-size mask and its flags.</summary>
internal static class LeafCutter
{
    private const int MarginPx = 8;

    /// <summary>The leaves, largest first.</summary>
    public static List<FoundLeaf> Cut(Mat bgr, ColourPlanes planes, Mat mask, bool onSheet, OutlineOptions options)
    {
        using Mat labels = new();
        using Mat stats = new();
        using Mat centroids = new();
        int count = Cv2.ConnectedComponentsWithStats(mask, labels, stats, centroids, PixelConnectivity.Connectivity8);
        double least = options.LeastLeafShare * mask.Cols * mask.Rows;
        List<(int Label, Rect Box, int Area)> pieces = [];
        for (int i = 1; i < count; i++)
        {
            ReadOnlySpan<int> s = stats.AsRow<int>(i);
            if (s[4] >= least && IsPlausible(s, mask.Size()))
            {
                pieces.Add((i, new Rect(s[0], s[1], s[2], s[3]), s[4]));
            }
        }

        List<FoundLeaf> leaves = [];
        if (pieces.Count == 0)
        {
            return leaves;
        }

        pieces.Sort((a, b) => b.Area.CompareTo(a.Area));
        using Mat band = EdgeRefiner.Band(mask);
        using EdgeModel model = EdgeModel.Learn(planes, mask, band);
        foreach ((int label, Rect box, _) in pieces.Take(options.MostLeaves))
        {
            using Mat own = new();
            Cv2.InRange(labels, new Scalar(label), new Scalar(label), own);
            if (One(bgr, own, box, model, onSheet, options) is { } leaf)
            {
                leaves.Add(leaf);
            }
        }

        return leaves;
    }

    // A strip along one side of the frame is the edge of the sheet or of the table, not a leaf.
    private static bool IsPlausible(ReadOnlySpan<int> s, Size frame)
    {
        bool thin = Math.Min(s[2], s[3]) < 0.04 * Math.Min(frame.Width, frame.Height);
        bool left = s[0] == 0;
        bool top = s[1] == 0;
        bool right = s[0] + s[2] == frame.Width;
        bool bottom = s[1] + s[3] == frame.Height;
        int sides = (left ? 1 : 0) + (top ? 1 : 0) + (right ? 1 : 0) + (bottom ? 1 : 0);
        return !(thin && sides > 0) && sides < 4;
    }

    private static FoundLeaf? One(Mat bgr, Mat own, Rect box, EdgeModel model, bool onSheet, OutlineOptions options)
    {
        double sx = bgr.Cols / (double)own.Cols;
        double sy = bgr.Rows / (double)own.Rows;
        Rect wide = Rect.FromLTRB(
            Math.Max(0, (int)((box.Left - 4) * sx) - MarginPx),
            Math.Max(0, (int)((box.Top - 4) * sy) - MarginPx),
            Math.Min(bgr.Cols, (int)((box.Right + 4) * sx) + MarginPx),
            Math.Min(bgr.Rows, (int)((box.Bottom + 4) * sy) + MarginPx));
        using Mat ownBand = EdgeRefiner.Band(own);
        using Mat drawn = EdgeRefiner.Draw(bgr, wide, own, ownBand, model);
        FullSizePieces.Clean(drawn, wide, own, bgr.Size());
        Rect tight = Cv2.BoundingRect(drawn);
        if (tight.Width < 4 || tight.Height < 4)
        {
            return null;
        }

        Rect padded = new Rect(tight.X - MarginPx, tight.Y - MarginPx, tight.Width + (2 * MarginPx), tight.Height + (2 * MarginPx))
            .Intersect(new Rect(0, 0, wide.Width, wide.Height));
        using Mat view = new(drawn, padded);
        Rect place = new(padded.X + wide.X, padded.Y + wide.Y, padded.Width, padded.Height);
        Mat mask = view.Clone();
        return new FoundLeaf(place, mask, Flags(mask, place, bgr.Size(), tight, onSheet, options));
    }

    private static List<string> Flags(Mat mask, Rect place, Size frame, Rect tight, bool onSheet, OutlineOptions options)
    {
        List<string> flags = [];
        int cut = 0;
        cut += place.Left == 0 ? CountColumn(mask, 0) : 0;
        cut += place.Right == frame.Width ? CountColumn(mask, mask.Cols - 1) : 0;
        cut += place.Top == 0 ? CountRow(mask, 0) : 0;
        cut += place.Bottom == frame.Height ? CountRow(mask, mask.Rows - 1) : 0;

        // A stalk may leave the frame; a blade must not.
        if (cut > Math.Max(3, Math.Max(tight.Width, tight.Height) / 25))
        {
            flags.Add(Flag.LeafCutOff.Name);
        }

        if (!onSheet)
        {
            flags.Add(Flag.OutlineUnsure.Name);
        }

        if (Math.Max(tight.Width, tight.Height) < options.SmallLeafPx)
        {
            flags.Add(Flag.LeafTooSmall.Name);
        }

        return flags;
    }

    private static int CountColumn(Mat mask, int x)
    {
        using Mat column = mask.Col(x);
        return Cv2.CountNonZero(column);
    }

    private static int CountRow(Mat mask, int y)
    {
        using Mat row = mask.Row(y);
        return Cv2.CountNonZero(row);
    }
}
