using LeafScan.Leaves.Baseline;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>Parts the small copy's mask into leaves and gives each its full-size mask and its flags.</summary>
internal static class LeafCutter
{
    private const int MarginPx = 8;

    /// <summary>Share of the edge that hardly differs from its surroundings, above which the outline is unsure.</summary>
    private const double UnsureWeak = 0.03;

    /// <summary>The same, above which the patch is a stain or a change of light, not a leaf.</summary>
    private const double MostWeak = 0.5;

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

        DropEdgeStrips(pieces, mask.Size());
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

    // Where the sheet ends or two papers meet, a patch runs along a whole side of the frame.
    private static void DropEdgeStrips(List<(int Label, Rect Box, int Area)> pieces, Size frame)
    {
        bool IsStrip((int Label, Rect Box, int Area) p)
        {
            bool upright = (p.Box.Left == 0 || p.Box.Right == frame.Width) && p.Box.Height > 0.9 * frame.Height && p.Box.Width < 0.5 * frame.Width;
            bool flat = (p.Box.Top == 0 || p.Box.Bottom == frame.Height) && p.Box.Width > 0.9 * frame.Width && p.Box.Height < 0.5 * frame.Height;
            return (upright || flat) && p.Area > 0.7 * p.Box.Width * p.Box.Height;
        }

        pieces.RemoveAll(IsStrip);
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
        double weak = model.WeakShare(ownBand);
        if (weak > MostWeak)
        {
            return null;
        }

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
        return new FoundLeaf(place, mask, Flags(mask, place, bgr.Size(), tight, weak > UnsureWeak || (!onSheet && IsRagged(own)), options));
    }

    private static List<string> Flags(Mat mask, Rect place, Size frame, Rect tight, bool unsure, OutlineOptions options)
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

        if (unsure)
        {
            flags.Add(Flag.OutlineUnsure.Name);
        }

        if (Math.Max(tight.Width, tight.Height) < options.SmallLeafPx)
        {
            flags.Add(Flag.LeafTooSmall.Name);
        }

        return flags;
    }

    // In a field photo a very uneven shape is often two leaves that run into each other.
    private static bool IsRagged(Mat own)
    {
        Cv2.FindContours(own, out Point[][] contours, out _, RetrievalModes.External, ContourApproximationModes.ApproxSimple);
        Point[]? outline = contours.MaxBy(c => Cv2.ContourArea(c));
        return outline is null || Cv2.ContourArea(outline) < 0.85 * Cv2.ContourArea(Cv2.ConvexHull(outline));
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
