using System.Security.Cryptography;
using System.Text;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>What a person said of one outline: it is another one, or no leaf at all.</summary>
/// <param name="Leaf">The outline that is spoken of, as an earlier reading had it, in pixels of the upright photo.</param>
/// <param name="Instead">The outline that was drawn, 3 corners or more; null when there is no leaf.</param>
public sealed record OutlineEdit(IReadOnlyList<PointPx> Leaf, IReadOnlyList<PointPx>? Instead)
{
    // Half of what either covers is common to both: a leaf beside another never reaches that, the same leaf measured again always did.
    private const double SameFrom = 0.5;
    private const int CompareAtPx = 256;
    private const int MarginPx = 8;

    /// <summary>Whether two outlines are those of the same leaf: at least half of what they cover together is covered by both.</summary>
    public static bool IsSame(IReadOnlyList<PointPx> one, IReadOnlyList<PointPx> other)
    {
        if (one.Count < 3 || other.Count < 3)
        {
            return false;
        }

        Rect box = Cv2.BoundingRect(one.Concat(other).Select(corner => new Point(corner.X, corner.Y)));
        double scale = Math.Min(1, CompareAtPx / (double)Math.Max(box.Width, box.Height));
        using Mat first = Filled(one, box, scale);
        using Mat second = Filled(other, box, scale);
        using Mat both = new();
        using Mat either = new();
        Cv2.BitwiseAnd(first, second, both);
        Cv2.BitwiseOr(first, second, either);
        return Cv2.CountNonZero(both) >= SameFrom * Cv2.CountNonZero(either);
    }

    /// <summary>Hash of options together with edits, stored with a reading that was made with both.</summary>
    public static string HashWith(MeasureOptions options, IEnumerable<OutlineEdit> edits)
    {
        StringBuilder text = new(options.Hash());
        foreach (OutlineEdit edit in edits)
        {
            text.Append('|').AppendJoin(';', edit.Leaf).Append('>').AppendJoin(';', edit.Instead ?? []);
        }

        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())))[..16];
    }

    /// <summary>Applies edits in their order to the leaves that were found; a drawn leaf that was found nowhere is added. Takes ownership of the leaves.</summary>
    internal static List<FoundLeaf> Apply(IReadOnlyList<FoundLeaf> found, IReadOnlyList<OutlineEdit> edits, Size photo)
    {
        List<(FoundLeaf Leaf, IReadOnlyList<PointPx> Outline)> leaves = [.. found.Select(leaf => (leaf, OutlineOf(leaf)))];
        foreach (OutlineEdit edit in edits)
        {
            foreach ((FoundLeaf Leaf, IReadOnlyList<PointPx> Outline) same in leaves.Where(pair => IsSame(pair.Outline, edit.Leaf)).ToList())
            {
                leaves.Remove(same);
                same.Leaf.Dispose();
            }

            if (edit.Instead is { } drawn && Drawn(drawn, photo) is { } leaf)
            {
                leaves.Add((leaf, drawn));
            }
        }

        return [.. leaves.Select(pair => pair.Leaf).OrderByDescending(leaf => Cv2.CountNonZero(leaf.Mask))];
    }

    private static FoundLeaf? Drawn(IReadOnlyList<PointPx> outline, Size photo)
    {
        Rect frame = new(0, 0, photo.Width, photo.Height);
        Rect tight = Rect.Intersect(Cv2.BoundingRect(outline.Select(corner => new Point(corner.X, corner.Y))), frame);
        if (tight.Width < 2 || tight.Height < 2)
        {
            return null;
        }

        Rect box = Rect.Intersect(new Rect(tight.X - MarginPx, tight.Y - MarginPx, tight.Width + (2 * MarginPx), tight.Height + (2 * MarginPx)), frame);
        Mat mask = Filled(outline, box, 1);
        if (Cv2.CountNonZero(mask) == 0)
        {
            mask.Dispose();
            return null;
        }

        bool isCut = tight.X == 0 || tight.Y == 0 || tight.Right == photo.Width || tight.Bottom == photo.Height;
        return new FoundLeaf(box, mask, isCut ? [Flag.LeafCutOff.Name] : []);
    }

    private static Mat Filled(IReadOnlyList<PointPx> outline, Rect box, double scale)
    {
        Mat mask = new(Math.Max(1, (int)Math.Ceiling(box.Height * scale)), Math.Max(1, (int)Math.Ceiling(box.Width * scale)), MatType.CV_8UC1, Scalar.All(0));
        Point[] corners = [.. outline.Select(corner => new Point((int)Math.Round((corner.X - box.X) * scale), (int)Math.Round((corner.Y - box.Y) * scale)))];
        Cv2.FillPoly(mask, [corners], Scalar.All(255));
        return mask;
    }

    private static List<PointPx> OutlineOf(FoundLeaf leaf)
    {
        Cv2.FindContours(leaf.Mask, out Point[][] contours, out _, RetrievalModes.External, ContourApproximationModes.ApproxSimple);
        Point[] largest = contours.MaxBy(contour => Cv2.ContourArea(contour)) ?? [];
        return [.. largest.Select(corner => new PointPx(corner.X + leaf.Box.X, corner.Y + leaf.Box.Y))];
    }
}
