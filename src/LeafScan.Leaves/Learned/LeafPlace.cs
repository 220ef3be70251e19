using OpenCvSharp;

namespace LeafScan.Leaves.Learned;

/// <summary>One leaf as the outline network sees it: where it lies and how sure its edge is. Owns its picture.</summary>
/// <param name="box">Box in the full-size photo, with room about the leaf.</param>
/// <param name="lengthPx">Longer side of the leaf itself in the full-size photo.</param>
/// <param name="prior">8-bit, small copy: chance of leaf times 255, other leaves taken out.</param>
/// <param name="cutOff">The leaf runs out of the frame.</param>
/// <param name="doubt">How much of the leaf's area hangs on the threshold, 0..1.</param>
internal sealed class LeafPlace(Rect box, int lengthPx, Mat prior, bool cutOff, double doubt) : IDisposable
{
    // Smaller patches are crumbs of the surroundings.
    private const double LeastFrameShare = 0.01;
    private const double LeastShareOfLargest = 0.08;

    /// <summary>Box in the full-size photo.</summary>
    public Rect Box { get; } = box;

    /// <summary>Longer side of the leaf itself, full-size pixels.</summary>
    public int LengthPx { get; } = lengthPx;

    /// <summary>Chance of leaf times 255, small copy.</summary>
    public Mat Prior { get; } = prior;

    /// <summary>The leaf runs out of the frame.</summary>
    public bool CutOff { get; } = cutOff;

    /// <summary>(area with chance over 0.25 minus area with chance over 0.75) / area with chance over 0.5.</summary>
    public double Doubt { get; } = doubt;

    /// <summary>Splits a chance map into leaves, largest first.</summary>
    public static List<LeafPlace> Split(Mat chance, Size full)
    {
        using Mat leaf = Above(chance, 0.5);
        using Mat generous = Above(chance, 0.25);
        using Mat strict = Above(chance, 0.75);
        using Mat labels = new();
        using Mat stats = new();
        using Mat centres = new();
        int count = Cv2.ConnectedComponentsWithStats(leaf, labels, stats, centres, PixelConnectivity.Connectivity4);
        List<(int Label, int Area)> parts = [];
        for (int label = 1; label < count; label++)
        {
            parts.Add((label, stats.At<int>(label, (int)ConnectedComponentsTypes.Area)));
        }

        parts = parts.Where(p => p.Area >= LeastFrameShare * chance.Total()).OrderByDescending(p => p.Area).ToList();
        List<LeafPlace> places = [];
        foreach ((int label, int area) in parts.Where(p => p.Area >= LeastShareOfLargest * parts[0].Area))
        {
            Rect small = new(
                stats.At<int>(label, (int)ConnectedComponentsTypes.Left), stats.At<int>(label, (int)ConnectedComponentsTypes.Top),
                stats.At<int>(label, (int)ConnectedComponentsTypes.Width), stats.At<int>(label, (int)ConnectedComponentsTypes.Height));
            places.Add(Place(chance, labels, label, area, small, generous, strict, full));
        }

        return places;
    }

    /// <inheritdoc />
    public void Dispose() => Prior.Dispose();

    private static LeafPlace Place(Mat chance, Mat labels, int label, int area, Rect small, Mat generous, Mat strict, Size full)
    {
        using Mat others = new();
        using Mat own = new();
        Cv2.InRange(labels, Scalar.All(label), Scalar.All(label), own);
        Cv2.Compare(labels, Scalar.All(0), others, CmpTypes.GT);
        others.SetTo(Scalar.All(0), own);
        Mat prior = new();
        chance.ConvertTo(prior, MatType.CV_8UC1, 255);
        prior.SetTo(Scalar.All(0), others);

        using Mat generousView = new(generous, small);
        using Mat strictView = new(strict, small);
        double doubt = (Cv2.CountNonZero(generousView) - Cv2.CountNonZero(strictView)) / (double)area;
        double scaleX = full.Width / (double)chance.Cols;
        double scaleY = full.Height / (double)chance.Rows;

        // The same room as in training: the tissue network needs to see what the leaf lies on.
        int length = (int)Math.Round(Math.Max(small.Width * scaleX, small.Height * scaleY));
        int room = (int)(0.08 * length) + 4;
        int left = Math.Max(0, (int)(small.X * scaleX) - room);
        int top = Math.Max(0, (int)(small.Y * scaleY) - room);
        int right = Math.Min(full.Width, (int)Math.Ceiling(small.Right * scaleX) + room);
        int bottom = Math.Min(full.Height, (int)Math.Ceiling(small.Bottom * scaleY) + room);
        bool cutOff = small.X <= 1 || small.Y <= 1 || small.Right >= chance.Cols - 1 || small.Bottom >= chance.Rows - 1;
        return new LeafPlace(new Rect(left, top, right - left, bottom - top), length, prior, cutOff, doubt);
    }

    private static Mat Above(Mat chance, double level)
    {
        Mat above = new();
        Cv2.Compare(chance, Scalar.All(level), above, CmpTypes.GT);
        return above;
    }
}
