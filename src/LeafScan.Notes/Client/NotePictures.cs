using LeafScan.Leaves;
using LeafScan.Leaves.Overlay;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Notes.Client;

/// <summary>
/// The picture of a note: a photo with what was found drawn over it, cut to its leaves. The record keeps where a photo lies
/// and not the photo, so it is opened and measured again; a file that is gone or was changed gives no picture. Pictures are drawn
/// anew from pixels and carry no metadata, so no position leaves with them.
/// </summary>
public static class NotePictures
{
    private const int LongSideMaxPx = 1500;

    private const int JpegQuality = 88;

    // Leaf with its surroundings: this share of its size on each side.
    private const double Edge = 0.06;

    /// <summary>Draws the picture of a photo.</summary>
    /// <param name="path">Where the photo lies.</param>
    /// <param name="sha256">Its fingerprint, lower-case hex; null to take any bytes.</param>
    /// <param name="how">How it is measured and drawn; null for the defaults.</param>
    /// <param name="cancel">Drops it.</param>
    /// <returns>The reading and the picture without a caption, or why there is none.</returns>
    public static DrawnPhoto Draw(string path, string? sha256, PictureChoice? how = null, CancellationToken cancel = default)
    {
        how ??= new PictureChoice();
        using PhotoOutcome outcome = PhotoReader.Open(path, new PhotoLimits(), cancel);
        if (outcome.Photo is not { } photo)
        {
            return new DrawnPhoto { Refusal = outcome.Refusal };
        }

        if (sha256 is not null && !string.Equals(photo.Facts.Sha256, sha256, StringComparison.OrdinalIgnoreCase))
        {
            return new DrawnPhoto { Refusal = new PhotoRefusal(Path.GetFileName(path), "The file is not the one that is on record.", "Bring the photo back to its place.") };
        }

        using LeafMeasurement measured = LeafMeter.Measure(photo, how.Options, how.Edits, cancel);
        if (measured.Reading is not { } reading || measured.Mask is not { } mask)
        {
            return new DrawnPhoto { Refusal = measured.Refusal };
        }

        if (how.Leaf is { } number && number > reading.Leaves.Count)
        {
            return new DrawnPhoto { Refusal = new PhotoRefusal(Path.GetFileName(path), $"The photo has no leaf {number.ToString(System.Globalization.CultureInfo.InvariantCulture)} any more.", "Leave out the leaf's number.") };
        }

        PhotoReading shown = how.Leaf is { } one ? reading with { Leaves = [reading.Leaves[one - 1]] } : reading;
        using Mat shownMask = how.Leaf is null ? mask.Clone() : Within(mask, shown.Leaves[0].Outline);
        return new DrawnPhoto { Reading = reading, Facts = photo.Facts, Picture = Paint(photo, shown, shownMask, how) };
    }

    private static NotePicture Paint(Photo photo, PhotoReading reading, Mat mask, PictureChoice how)
    {
        // Cut first, then drawn: lines are as thick as they should be on the part that is shown.
        Rect part = Around(reading, photo.Pixels.Size(), how.LeastShape);
        using Photo piece = new(photo.Facts, photo.Pixels.SubMat(part).Clone(), photo.Flags);
        using Mat pieceMask = mask.SubMat(part).Clone();
        PhotoReading moved = reading with
        {
            Leaves = [.. reading.Leaves.Select(leaf => leaf with { Outline = [.. leaf.Outline.Select(corner => new PointPx(corner.X - part.X, corner.Y - part.Y))] })],
        };
        using Mat drawn = OverlayPainter.Paint(piece, pieceMask, moved, new OverlayOptions { LongSideMaxPx = LongSideMaxPx, Legend = false });
        return new NotePicture(Jpeg(drawn), drawn.Cols, drawn.Rows, Legend(mask)) { Plain = how.WithPlain ? Jpeg(piece.Pixels, drawn.Size()) : default };
    }

    private static byte[] Jpeg(Mat picture)
    {
        Cv2.ImEncode(".jpg", picture, out byte[] jpeg, new ImageEncodingParam(ImwriteFlags.JpegQuality, JpegQuality));
        return jpeg;
    }

    private static byte[] Jpeg(Mat picture, Size size)
    {
        using Mat sized = new();
        Cv2.Resize(picture, sized, size, 0, 0, size.Width < picture.Cols ? InterpolationFlags.Area : InterpolationFlags.Cubic);
        return Jpeg(sized);
    }

    // What lies on other leaves of the photo is not drawn.
    private static Mat Within(Mat mask, IReadOnlyList<PointPx> outline)
    {
        using Mat inside = new(mask.Size(), MatType.CV_8UC1, Scalar.All(0));
        Cv2.FillPoly(inside, [outline.Select(corner => new Point(corner.X, corner.Y))], Scalar.All(255));
        Mat kept = new(mask.Size(), MatType.CV_8UC1, Scalar.All(0));
        mask.CopyTo(kept, inside);
        return kept;
    }

    /// <summary>The kinds of damage in a mask with the lines they are drawn in, in words.</summary>
    private static string Legend(Mat mask)
    {
        List<string> kinds = [];
        foreach ((MaskCode code, string words) in new[]
        {
            (MaskCode.Speck, "rings: stippled"), (MaskCode.Yellowed, "rising lines: yellowed"), (MaskCode.Browned, "crossed lines: browned"),
            (MaskCode.Chewed, "level lines: chewed away"), (MaskCode.Unassessed, "dots: not judged"),
        })
        {
            using Mat hit = new();
            Cv2.Compare(mask, new Scalar((int)code), hit, CmpTypes.EQ);
            if (Cv2.CountNonZero(hit) > 0)
            {
                kinds.Add(words);
            }
        }

        return kinds.Count == 0 ? "Nothing was found on it." : char.ToUpperInvariant(kinds[0][0]) + string.Join("; ", kinds)[1..] + ".";
    }

    private static Rect Around(PhotoReading reading, Size whole, double leastShape)
    {
        List<PointPx> corners = [.. reading.Leaves.SelectMany(leaf => leaf.Outline)];
        if (corners.Count == 0)
        {
            return new Rect(0, 0, whole.Width, whole.Height);
        }

        double left = corners.Min(corner => corner.X);
        double top = corners.Min(corner => corner.Y);
        double width = corners.Max(corner => corner.X) - left + 1;
        double height = corners.Max(corner => corner.Y) - top + 1;
        double edge = Edge * Math.Max(width, height);

        // A long thin leaf gets more of its surroundings, so that the picture is not a strip.
        double wantedWidth = Math.Max(width + (2 * edge), 0.75 * (height + (2 * edge)));
        double wantedHeight = Math.Max(height + (2 * edge), leastShape * (width + (2 * edge)));
        int x = (int)Math.Clamp(left + (width / 2) - (wantedWidth / 2), 0, whole.Width - 1);
        int y = (int)Math.Clamp(top + (height / 2) - (wantedHeight / 2), 0, whole.Height - 1);
        return new Rect(x, y, (int)Math.Clamp(wantedWidth, 1, whole.Width - x), (int)Math.Clamp(wantedHeight, 1, whole.Height - y));
    }
}
