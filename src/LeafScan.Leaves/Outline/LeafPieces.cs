using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>Cuts a small mask into leaves and gives each its mask at full size.</summary>
internal static class LeafPieces
{
    private const int MarginPx = 12;

    /// <summary>Leaves, largest first.</summary>
    public static List<FoundLeaf> Cut(Mat bgr, Mat small, Mat mask, bool onSheet, OutlineOptions options)
    {
        using Mat labels = new();
        using Mat stats = new();
        using Mat centres = new();
        int count = Cv2.ConnectedComponentsWithStats(mask, labels, stats, centres, PixelConnectivity.Connectivity4);
        List<Piece> pieces = [];
        for (int label = 1; label < count; label++)
        {
            pieces.Add(new Piece(
                label,
                stats.At<int>(label, (int)ConnectedComponentsTypes.Area),
                new Rect(
                    stats.At<int>(label, (int)ConnectedComponentsTypes.Left), stats.At<int>(label, (int)ConnectedComponentsTypes.Top),
                    stats.At<int>(label, (int)ConnectedComponentsTypes.Width), stats.At<int>(label, (int)ConnectedComponentsTypes.Height))));
        }

        double smallest = options.SmallestShare * mask.Total();
        pieces = pieces.Where(p => p.Area >= smallest && p.Area <= 0.97 * mask.Total()).OrderByDescending(p => p.Area).ToList();
        if (pieces.Count == 0)
        {
            return [];
        }

        // In the field only the main leaf is meant; on a sheet each leaf of some size is.
        pieces = onSheet ? pieces.Where(p => p.Area >= options.SmallestToLargest * pieces[0].Area).ToList() : [pieces[0]];
        using EdgeRefiner refiner = new(bgr, small, mask, onSheet);
        List<FoundLeaf> leaves = [];
        foreach (Piece piece in pieces)
        {
            leaves.Add(Enlarge(refiner, bgr.Size(), labels, piece, onSheet));
        }

        return leaves;
    }

    private static FoundLeaf Enlarge(EdgeRefiner refiner, Size full, Mat labels, Piece piece, bool onSheet)
    {
        Size smallSize = labels.Size();
        double scaleX = full.Width / (double)smallSize.Width;
        double scaleY = full.Height / (double)smallSize.Height;
        int left = Math.Max(0, (int)(piece.Box.X * scaleX) - MarginPx);
        int top = Math.Max(0, (int)(piece.Box.Y * scaleY) - MarginPx);
        int right = Math.Min(full.Width, (int)Math.Ceiling(piece.Box.Right * scaleX) + MarginPx);
        int bottom = Math.Min(full.Height, (int)Math.Ceiling(piece.Box.Bottom * scaleY) + MarginPx);
        Rect box = new(left, top, right - left, bottom - top);
        using Mat one = new();
        Cv2.InRange(labels, Scalar.All(piece.Label), Scalar.All(piece.Label), one);
        Mat mask = refiner.Refine(one, box);
        List<string> flags = [];
        if (TouchesFrame(piece.Box, smallSize))
        {
            flags.Add(Flag.LeafCutOff.Name);
        }

        if (!onSheet)
        {
            flags.Add(Flag.OutlineUnsure.Name);
        }

        return new FoundLeaf(box, mask, flags);
    }

    private static bool TouchesFrame(Rect box, Size size)
        => box.X <= 1 || box.Y <= 1 || box.Right >= size.Width - 1 || box.Bottom >= size.Height - 1;

    private readonly record struct Piece(int Label, int Area, Rect Box);
}
