using LeafScan.Leaves;
using LeafScan.Leaves.Overlay;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Notes.Client;

/// <summary>
/// The picture of a note: a photo with what was found drawn over it, cut to its leaves. The record keeps where a photo lies
/// and not the photo, so it is opened and measured again; a file that is gone or was changed gives no picture.
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
    /// <param name="options">How it is measured; null for the defaults.</param>
    /// <param name="cancel">Drops it.</param>
    /// <returns>The reading and the picture without a caption, or null when the photo is gone, changed or cannot be measured.</returns>
    public static (PhotoReading Reading, PhotoFacts Facts, NotePicture Picture)? Of(string path, string? sha256, MeasureOptions? options = null, CancellationToken cancel = default)
        => Try(path, sha256, options, cancel, out _);

    /// <summary>The same, with the reason when there is none.</summary>
    /// <param name="path">Where the photo lies.</param>
    /// <param name="sha256">Its fingerprint; null to take any bytes.</param>
    /// <param name="options">How it is measured; null for the defaults.</param>
    /// <param name="cancel">Drops it.</param>
    /// <param name="refusal">Why not; null when there is a picture.</param>
    public static (PhotoReading Reading, PhotoFacts Facts, NotePicture Picture)? Try(
        string path, string? sha256, MeasureOptions? options, CancellationToken cancel, out PhotoRefusal? refusal)
    {
        using PhotoOutcome outcome = PhotoReader.Open(path, new PhotoLimits(), cancel);
        refusal = outcome.Refusal;
        if (outcome.Photo is not { } photo)
        {
            return null;
        }

        if (sha256 is not null && !string.Equals(photo.Facts.Sha256, sha256, StringComparison.OrdinalIgnoreCase))
        {
            refusal = new PhotoRefusal(Path.GetFileName(path), "The file is not the one that is on record.", "Bring the photo back to its place.");
            return null;
        }

        using LeafMeasurement measured = LeafMeter.Measure(photo, options ?? new MeasureOptions(), cancel);
        refusal = measured.Refusal;
        if (measured.Reading is not { } reading || measured.Mask is not { } mask)
        {
            return null;
        }

        // Cut first, then drawn: lines are as thick as they should be on the part that is shown.
        Rect part = Around(reading, photo.Pixels.Size());
        using Photo piece = new(photo.Facts, photo.Pixels.SubMat(part).Clone(), photo.Flags);
        using Mat pieceMask = mask.SubMat(part).Clone();
        PhotoReading moved = reading with
        {
            Leaves = [.. reading.Leaves.Select(leaf => leaf with { Outline = [.. leaf.Outline.Select(corner => new PointPx(corner.X - part.X, corner.Y - part.Y))] })],
        };
        using Mat drawn = OverlayPainter.Paint(piece, pieceMask, moved, new OverlayOptions { LongSideMaxPx = LongSideMaxPx });
        Size shown = WithoutLegend(piece.Pixels.Size(), drawn.Size());
        using Mat picture = drawn.SubMat(new Rect(0, 0, shown.Width, shown.Height)).Clone();
        Cv2.ImEncode(".jpg", picture, out byte[] jpeg, new ImageEncodingParam(ImwriteFlags.JpegQuality, JpegQuality));
        return (reading, photo.Facts, new NotePicture(jpeg, picture.Cols, picture.Rows, Legend(mask)));
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

    private static Rect Around(PhotoReading reading, Size whole)
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
        double wantedHeight = Math.Max(height + (2 * edge), 0.62 * (width + (2 * edge)));
        int x = (int)Math.Clamp(left + (width / 2) - (wantedWidth / 2), 0, whole.Width - 1);
        int y = (int)Math.Clamp(top + (height / 2) - (wantedHeight / 2), 0, whole.Height - 1);
        return new Rect(x, y, (int)Math.Clamp(wantedWidth, 1, whole.Width - x), (int)Math.Clamp(wantedHeight, 1, whole.Height - y));
    }

    // The painter adds its legend below, and paper beside a narrow photo; both are left out here.
    private static Size WithoutLegend(Size piece, Size drawn)
    {
        double longSide = Math.Max(piece.Width, piece.Height);
        OverlayOptions options = new() { LongSideMaxPx = LongSideMaxPx };
        double scale = longSide > options.LongSideMaxPx ? options.LongSideMaxPx / longSide
            : longSide < options.LongSideMinPx ? Math.Min(4, Math.Ceiling(options.LongSideMinPx / longSide))
            : 1;
        return new Size(
            Math.Clamp((int)Math.Round(piece.Width * scale), 1, drawn.Width), Math.Clamp((int)Math.Round(piece.Height * scale), 1, drawn.Height));
    }
}
