using LeafScan.Leaves;
using LeafScan.Leaves.Kinds;
using LeafScan.Leaves.Overlay;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Photos.Pictures;
using LeafScan.Walks.Tags;
using OpenCvSharp;

namespace LeafScan.Walks.Measuring;

/// <summary>Opens, measures and draws one file. Whatever is wrong with the file ends as a refusal of this file only.</summary>
public static class OnePhoto
{
    /// <summary>Measures one file and writes its mask and overlay.</summary>
    /// <param name="item">The file.</param>
    /// <param name="job">How.</param>
    /// <param name="log">Takes the details of a fault of our own and says where they are; null when nowhere.</param>
    /// <param name="cancel">Drops the photo in hand.</param>
    /// <exception cref="PictureWriteException">Mask or overlay could not be written: that is the disk's fault, not the photo's.</exception>
    public static PhotoResult Measure(PhotoItem item, MeasureJob job, Func<Exception, string?> log, CancellationToken cancel)
    {
        PhotoFacts? facts = null;
        try
        {
            using PhotoOutcome outcome = PhotoReader.Open(item.Path, job.Limits, cancel);
            if (outcome.Photo is not { } photo)
            {
                return PhotoResult.Refused(item, null, outcome.Refusal!);
            }

            facts = photo.Facts;
            TagSeen tag = job.Tags.GetValueOrDefault(item.Path, TagSeen.Nothing);
            if (tag.IsTagPhoto)
            {
                return new PhotoResult(item, facts, TagReading(item, photo), null);
            }

            using LeafMeasurement measured = LeafMeter.Measure(photo, job.OptionsOf(item.Path), cancel);
            if (measured.Reading is not { } reading)
            {
                // No leaf, but a tag: it was taken for the tag.
                return tag.Any ? new PhotoResult(item, facts, TagReading(item, photo), null) : PhotoResult.Refused(item, facts, measured.Refusal!);
            }

            cancel.ThrowIfCancellationRequested();
            Draw(item, job, photo, measured.Mask!, reading);
            return new PhotoResult(item, facts, reading with { File = item.Label }, null);
        }
        catch (OutOfMemoryException)
        {
            return PhotoResult.Refused(item, facts, new PhotoRefusal(
                item.Label, "There was not enough memory for this photo.", "Close other programs or run again with --jobs 1."));
        }
        // A machine without its libraries is not the photo's fault, and every other photo would fail alike.
        catch (Exception error) when (error is not (OperationCanceledException or PictureWriteException or TypeInitializationException or DllNotFoundException))
        {
            string where = log(error) is { } path ? $"Please report it with the details in {path}." : $"Please report it: {error.GetType().Name}.";
            return PhotoResult.Refused(item, facts, new PhotoRefusal(
                item.Label, "LeafScan made a mistake of its own on this photo; the other photos are not touched by it.", where));
        }
    }

    private static PhotoReading TagReading(PhotoItem item, Photo photo) => new()
    {
        File = item.Label,
        Sha256 = photo.Facts.Sha256,
        Width = photo.Facts.WidthPx,
        Height = photo.Facts.HeightPx,
        Taken = photo.Facts.Taken?.ToString(),
        Kind = PhotoKind.Tag.Name(),
        Flags = photo.Flags,
        Leaves = [],
    };

    private static void Draw(PhotoItem item, MeasureJob job, Photo photo, Mat mask, PhotoReading reading)
    {
        if (job.MasksFolder is { } masks)
        {
            PictureWriter.WritePng(mask, Path.Combine(masks, item.OutputName + ".mask.png"));
        }

        if (job.OverlaysFolder is { } overlays)
        {
            using Mat overlay = OverlayPainter.Paint(photo, mask, reading);
            PictureWriter.WriteJpeg(overlay, Path.Combine(overlays, item.OutputName + ".overlay.jpg"));
        }
    }
}
