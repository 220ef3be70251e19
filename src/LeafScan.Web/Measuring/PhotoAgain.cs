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
internal sealed class PhotoAgain(RecordStore store, PhotoFiles files, MeasureGate gate, ProgressBell bell, DrawnRoom room)
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
        MeasureOptions how = Options.For(store, photo.PlantId);
        using LeafMeasurement measured = LeafMeter.Measure(picture, how, edits);
        PhotoReading reading = measured.Reading is { } found ? found : Empty(picture);
        store.RecordReading(photoId, NotMites(reading, standing) with { File = photo.FileName }, OriginOf(photo, edits), null, said);
        DrawnNames.DropOlder(files, photo, store.ReadingsOfPhoto(photoId)[0]);
        if (measured.Mask is { } mask)
        {
            Directory.CreateDirectory(files.Drawn);
            PictureWriter.WritePng(mask, DrawnNames.Mask(files, photo, store.ReadingsOfPhoto(photoId)[0]));
            room.Tidy();
        }

        return true;
    }

    /// <summary>Whether a reading was made as this version makes it with these settings, so that its marks come out the same when they are drawn again.</summary>
    public bool IsCurrent(PhotoOnRecord photo, ReadingOrigin origin) => origin == OriginOf(photo, Edits(Standing(photo.Id)));

    /// <summary>
    /// Makes the mask of the current reading again, with all that people said of its leaves. The figures on record stay as they are; of a
    /// reading by another version the mask may differ a little from them.
    /// </summary>
    /// <returns>False when the photo cannot be opened or no leaf is found on it any more.</returns>
    public Task<bool> MaskAsync(PhotoOnRecord photo, ReadingOnRecord reading, CancellationToken cancel) => gate.RunAsync(
        () =>
        {
            string path = DrawnNames.Mask(files, photo, reading);
            if (File.Exists(path))
            {
                return true;
            }

            using PhotoOutcome opened = PhotoReader.Open(photo.PathSeen, new PhotoLimits());
            if (opened.Photo is not { } picture || picture.Facts.Sha256 != photo.Sha256)
            {
                return false;
            }

            // The kind that is on record: another one would mark other things.
            MeasureOptions how = Options.For(store.Folder).AsMeasured(photo.PlantId is { } id ? store.FindPlant(id) : null, reading.Origin);
            OutlineEdit[] edits = Edits(Standing(photo.Id));
            how = reading.Origin == OriginOf(photo, edits) ? how : how with { Kind = photo.Kind };
            using LeafMeasurement measured = LeafMeter.Measure(picture, how, edits, cancel);
            if (measured.Mask is not { } mask)
            {
                return false;
            }

            Directory.CreateDirectory(files.Drawn);
            PictureWriter.WritePng(mask, path);
            room.Tidy();
            return true;
        },
        cancel);

    private Correction[] Standing(long photoId) => [.. store.CorrectionsOf(photoId).Where(one => !one.IsTakenBack)];

    private static OutlineEdit[] Edits(IEnumerable<Correction> standing)
        => [.. standing.Where(one => one.What != CorrectionKind.NotMites).Select(one => new OutlineEdit(one.LeafOutline, one.Outline))];

    private ReadingOrigin OriginOf(PhotoOnRecord photo, OutlineEdit[] edits)
    {
        MeasureOptions how = Options.For(store, photo.PlantId);
        return new ReadingOrigin(ToolVersion.Current, edits.Length == 0 ? how.Hash() : OutlineEdit.HashWith(how, edits), LearnedModels.VersionInUse);
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
