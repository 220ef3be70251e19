using System.Collections.Concurrent;
using LeafScan.Leaves;
using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Photos.Pictures;
using LeafScan.Records;
using LeafScan.Web.Progress;
using LeafScan.Web.Uploads;

namespace LeafScan.Web.Measuring;

/// <summary>Measures a photo again with all that people said of its leaves. The reading before stays on record.</summary>
internal sealed class PhotoAgain(RecordStore store, PhotoFiles files, MeasureGate gate, ProgressBell bell)
{
    private readonly ConcurrentDictionary<long, bool> _given = [];

    /// <summary>Whether trying makes sense: the file was there when it was last tried.</summary>
    public bool CanTry(long photoId) => !_given.ContainsKey(photoId);

    /// <summary>Measures again.</summary>
    /// <returns>False when the photo cannot be opened any more; what was said stays on record and waits.</returns>
    public async Task<bool> MeasureAsync(long photoId, CancellationToken cancel)
    {
        bool done = await gate.RunAsync(() => Measure(photoId), cancel).ConfigureAwait(false);
        if (done)
        {
            _given.TryRemove(photoId, out _);
        }
        else
        {
            _given[photoId] = true;
        }

        bell.Ring();
        return done;
    }

    private bool Measure(long photoId)
    {
        if (!store.PhotosToMeasureAgain().Contains(photoId))
        {
            // Whoever had the turn before has done it.
            return true;
        }

        if (store.FindPhoto(photoId) is not { } photo || !File.Exists(photo.PathSeen))
        {
            return false;
        }

        using PhotoOutcome opened = PhotoReader.Open(photo.PathSeen, new PhotoLimits());
        if (opened.Photo is not { } picture || picture.Facts.Sha256 != photo.Sha256)
        {
            return false;
        }

        IReadOnlyList<Correction> said = store.CorrectionsOf(photoId);
        Correction[] standing = [.. said.Where(one => !one.IsTakenBack)];
        OutlineEdit[] edits = Correction.EditsOf(said);
        MeasureOptions how = Options.For(store.Folder);
        using LeafMeasurement measured = LeafMeter.Measure(picture, how, edits);
        PhotoReading reading = measured.Reading is { } found ? found : Empty(picture);
        string hash = edits.Length == 0 ? how.Hash() : OutlineEdit.HashWith(how, edits);
        store.RecordReading(photoId, NotMites(reading, standing) with { File = photo.FileName }, new ReadingOrigin(ToolVersion.Current, hash, LearnedModels.VersionInUse), null, said);
        DrawnNames.DropOlder(files, photo, store.ReadingsOfPhoto(photoId)[0]);
        if (measured.Mask is { } mask)
        {
            Directory.CreateDirectory(files.Drawn);
            PictureWriter.WritePng(mask, DrawnNames.Mask(files, photo, store.ReadingsOfPhoto(photoId)[0]));
        }

        return true;
    }

    // "Nothing found" is a reading with zeros: every leaf was said to be none.
    private static PhotoReading Empty(Photo photo) => new()
    {
        File = photo.Facts.FileName,
        Sha256 = photo.Facts.Sha256,
        Width = photo.Facts.WidthPx,
        Height = photo.Facts.HeightPx,
        Taken = photo.Facts.Taken?.ToString(),
        Kind = "leaf",
        Flags = photo.Flags,
        Leaves = [],
    };

    private static PhotoReading NotMites(PhotoReading reading, IReadOnlyList<Correction> standing)
    {
        Correction[] said = [.. standing.Where(one => one.What == CorrectionKind.NotMites)];
        return said.Length == 0 ? reading : reading with
        {
            Leaves = [.. reading.Leaves.Select(leaf => said.Any(one => OutlineEdit.IsSame(one.LeafOutline, leaf.Outline))
                ? leaf with { Causes = [.. leaf.Causes.Where(cause => cause.Cause != MiteCause)] }
                : leaf)],
        };
    }

    private const string MiteCause = "miteStippling";
}
