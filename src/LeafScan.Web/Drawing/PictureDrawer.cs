using LeafScan.Leaves.Overlay;
using LeafScan.Photos;
using LeafScan.Photos.Pictures;
using LeafScan.Records;
using LeafScan.Web.Measuring;
using LeafScan.Web.Uploads;
using OpenCvSharp;

namespace LeafScan.Web.Drawing;

/// <summary>Why there is no picture.</summary>
internal enum NotDrawn
{
    /// <summary>There is one.</summary>
    No,

    /// <summary>The photo's file has gone or is another one now.</summary>
    FileGone,

    /// <summary>What was marked is not found on the photo any more: it is another file now, or another version made the reading.</summary>
    NotAgain,
}

/// <summary>A picture that was drawn, or why not.</summary>
internal sealed record Drawn(string? Path, NotDrawn Why);

/// <summary>Draws pictures of photos and keeps them; a few sizes only, so that what is kept stays small.</summary>
internal sealed class PictureDrawer(RecordStore store, PhotoFiles files, PhotoAgain again, DrawnRoom room) : IDisposable
{
    private static readonly int[] Edges = [320, 800, 1600, 3200, 8000];

    // A decoded photo of twelve megapixels takes some hundred megabytes with its copies.
    private readonly SemaphoreSlim _one = new(1, 1);

    /// <summary>Gives the picture or overlay of a photo.</summary>
    /// <param name="photo">The photo.</param>
    /// <param name="edge">Longest side wished for, in pixels.</param>
    /// <param name="overlay">Whether what was found is drawn over it.</param>
    /// <param name="cancel">Stops while it waits for its turn.</param>
    public async Task<Drawn> DrawAsync(PhotoOnRecord photo, int edge, bool overlay, CancellationToken cancel)
    {
        int size = Edges.FirstOrDefault(known => known >= edge, Edges[^1]);
        ReadingOnRecord reading = store.ReadingsOfPhoto(photo.Id)[0];
        string path = overlay ? DrawnNames.Overlay(files, photo, reading, size) : DrawnNames.Picture(files, photo, size);
        if (File.Exists(path))
        {
            room.Seen(path);
            return new Drawn(path, NotDrawn.No);
        }

        if (overlay && !File.Exists(DrawnNames.Mask(files, photo, reading)) && await MakeMaskAsync(photo, reading, cancel).ConfigureAwait(false) is var why and not NotDrawn.No)
        {
            return new Drawn(null, why);
        }

        await _one.WaitAsync(cancel).ConfigureAwait(false);
        try
        {
            return File.Exists(path) ? new Drawn(path, NotDrawn.No) : await Task.Run(() => Draw(photo, reading, size, overlay, path), CancellationToken.None).ConfigureAwait(false);
        }
        finally
        {
            _one.Release();
        }
    }

    /// <inheritdoc />
    public void Dispose() => _one.Dispose();

    private Drawn Draw(PhotoOnRecord photo, ReadingOnRecord reading, int edge, bool overlay, string path)
    {
        using PhotoOutcome opened = PhotoReader.Open(photo.PathSeen, new PhotoLimits());
        if (opened.Photo is not { } picture || picture.Facts.Sha256 != photo.Sha256)
        {
            return new Drawn(null, NotDrawn.FileGone);
        }

        Directory.CreateDirectory(files.Drawn);
        using Mat drawn = overlay ? Overlay(photo, picture, reading, edge) : Smaller(picture.Pixels, edge);
        PictureWriter.WriteJpeg(drawn, path);
        room.Tidy();
        return new Drawn(path, NotDrawn.No);
    }

    private Mat Overlay(PhotoOnRecord photo, Photo picture, ReadingOnRecord reading, int edge)
    {
        string file = DrawnNames.Mask(files, photo, reading);
        using Mat mask = File.Exists(file) ? Cv2.ImRead(file, ImreadModes.Grayscale) : new Mat(picture.Pixels.Size(), MatType.CV_8UC1, Scalar.All(0));
        return OverlayPainter.Paint(picture, mask, store.ReadingOf(photo.Id)!, new OverlayOptions { LongSideMaxPx = edge, LongSideMinPx = 1, Legend = false });
    }

    // Photos that a command added have no mask yet, and one that was not looked at for long is gone.
    private async Task<NotDrawn> MakeMaskAsync(PhotoOnRecord photo, ReadingOnRecord reading, CancellationToken cancel)
        => reading.LeafCount == 0 ? NotDrawn.No
            : !File.Exists(photo.PathSeen) ? NotDrawn.FileGone
            : await again.MaskAsync(photo, reading, cancel).ConfigureAwait(false) ? NotDrawn.No
            : NotDrawn.NotAgain;

    private static Mat Smaller(Mat pixels, int edge)
    {
        double scale = edge / (double)Math.Max(pixels.Cols, pixels.Rows);
        Mat small = new();
        if (scale >= 1)
        {
            pixels.CopyTo(small);
        }
        else
        {
            Cv2.Resize(pixels, small, new Size(Math.Max(1, Math.Round(pixels.Cols * scale)), Math.Max(1, Math.Round(pixels.Rows * scale))), 0, 0, InterpolationFlags.Area);
        }

        return small;
    }
}
