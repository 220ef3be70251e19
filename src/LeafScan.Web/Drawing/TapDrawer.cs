using System.Globalization;
using LeafScan.Photos;
using LeafScan.Photos.Pictures;
using LeafScan.Records;
using LeafScan.Taps.Overlay;
using LeafScan.Web.Measuring;
using LeafScan.Web.Uploads;
using OpenCvSharp;

namespace LeafScan.Web.Drawing;

/// <summary>Draws the photos of a tap sheet: the first as it is, the second laid over it, so that what walked is seen to jump.</summary>
internal sealed class TapDrawer(PhotoFiles files, TapSheets sheets, MeasureGate gate, DrawnRoom room)
{
    private static readonly int[] Edges = [800, 1600, 3200, 8000];

    /// <summary>Path of a picture of a sheet; null when a photo of it has gone.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="second">Whether the second photo is wanted.</param>
    /// <param name="edge">Longest side in pixels.</param>
    /// <param name="cancel">Stops while it waits for its turn.</param>
    public async Task<string?> DrawAsync(TapSheetOnRecord sheet, bool second, int edge, CancellationToken cancel)
    {
        int size = Edges.FirstOrDefault(known => known >= edge, Edges[^1]);
        string path = Path.Combine(files.Drawn, string.Create(CultureInfo.InvariantCulture, $"tap-{sheet.Id}-{(second ? "second" : "first")}-{sheet.FirstSha256[..16]}-{size}.jpg"));
        if (File.Exists(path))
        {
            room.Seen(path);
            return path;
        }

        return sheets.Find(second ? sheet.SecondSha256 : sheet.FirstSha256) is { } photo && await gate.RunAsync(() => Draw(sheet, photo, second, size, path), cancel).ConfigureAwait(false) ? path : null;
    }

    /// <summary>Path of the first photo with every speck marked and a legend; null when the photo has gone.</summary>
    public async Task<string?> OverlayAsync(TapSheetOnRecord sheet, CancellationToken cancel)
    {
        string path = sheets.OverlayPath(sheet.FirstSha256, sheet.SecondSha256);
        if (File.Exists(path))
        {
            room.Seen(path);
            return path;
        }

        return sheets.Find(sheet.FirstSha256) is { } photo && await gate.RunAsync(
            () =>
            {
                using PhotoOutcome opened = PhotoReader.Open(photo, new PhotoLimits());
                if (opened.Photo is not { } picture)
                {
                    return false;
                }

                using Mat drawn = TapOverlayPainter.Paint(picture, TapSheets.ReadingOf(sheet).Reading);
                Write(drawn, path);
                return true;
            },
            cancel).ConfigureAwait(false) ? path : null;
    }

    private bool Draw(TapSheetOnRecord sheet, string photo, bool second, int edge, string path)
    {
        using PhotoOutcome opened = PhotoReader.Open(photo, new PhotoLimits());
        if (opened.Photo is not { } picture)
        {
            return false;
        }

        KeptReading kept = TapSheets.ReadingOf(sheet);
        double scale = Math.Min(1, edge / (double)Math.Max(kept.Width, kept.Height));
        Size size = new(Math.Max(1, Math.Round(kept.Width * scale)), Math.Max(1, Math.Round(kept.Height * scale)));
        using Mat whole = second ? OverFirst(picture.Pixels, kept) : picture.Pixels.Clone();
        using Mat drawn = new();
        Cv2.Resize(whole, drawn, size, 0, 0, InterpolationFlags.Area);
        Write(drawn, path);
        return true;
    }

    // The reading's own map leads from the first photo's pixels to the second's: asked backwards, it gives each place of the first what the second shows there.
    private static Mat OverFirst(Mat second, KeptReading kept)
    {
        Mat laid = new();
        if (kept.Reading.Alignments is not [var map, ..])
        {
            second.CopyTo(laid);
            return laid;
        }

        using Mat matrix = Mat.FromPixelData(3, 3, MatType.CV_64FC1, map.ToArray());
        Cv2.WarpPerspective(second, laid, matrix, new Size(kept.Width, kept.Height), InterpolationFlags.Linear | InterpolationFlags.WarpInverseMap, BorderTypes.Constant, Scalar.All(128));
        return laid;
    }

    private void Write(Mat drawn, string path)
    {
        Directory.CreateDirectory(files.Drawn);
        PictureWriter.WriteJpeg(drawn, path);
        room.Tidy();
    }
}
