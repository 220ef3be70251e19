using Dapper;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    /// <summary>The photo with these bytes, or null. Ask before measuring: a photo on record need not be measured again.</summary>
    /// <param name="sha256">SHA-256 of the file, lower-case hex.</param>
    public PhotoOnRecord? FindPhoto(string sha256) => Read(connection => PhotoOf(connection, sha256, null));

    /// <summary>
    /// Keeps a photo with its reading, whole or not at all. The same bytes twice are one photo: the first stays where it is,
    /// and the answer tells where that is. A refusal of the same file in the same walk is marked as mended.
    /// </summary>
    /// <exception cref="SqliteException">The reading breaks its own rules, such as shares that do not add up: a fault of the measuring code. Nothing was written.</exception>
    public PhotoRecorded RecordPhoto(NewPhoto photo) => Write(transaction =>
    {
        SqliteConnection connection = transaction.Connection!;
        if (PhotoOf(connection, photo.Facts.Sha256, transaction) is { } known)
        {
            return new PhotoRecorded(false, known);
        }

        long placeId = connection.QuerySingle<long>("SELECT place_id FROM walk WHERE id = @WalkId", new { photo.WalkId }, transaction);
        long? plantId = photo.Plant.Code is { } code ? PlantOf(transaction, placeId, NameText.CleanOrThrow(code, "a plant code")).Id : null;
        long photoId = connection.QuerySingle<long>(
            """
            INSERT INTO photo (sha256, file_name, path_seen, byte_length, format, width_px, height_px, taken, kind, walk_id, plant_id, plant_by, leaf_age, leaf_tag, run_id, recorded_utc)
            VALUES (@Sha256, @FileName, @Path, @ByteLength, @format, @WidthPx, @HeightPx, @taken, @Kind, @WalkId, @plantId, @plantBy, @leafAge, @leafTag, @RunId, @now)
            RETURNING id
            """,
            new
            {
                photo.Facts.Sha256,
                photo.Facts.FileName,
                photo.Facts.Path,
                photo.Facts.ByteLength,
                format = FormatWord(photo.Facts.Format),
                photo.Facts.WidthPx,
                photo.Facts.HeightPx,
                taken = photo.Facts.Taken?.ToString(),
                photo.Reading.Kind,
                photo.WalkId,
                plantId,
                plantBy = photo.Plant.Word,
                leafAge = StoreWords.Of(photo.LeafAge),
                leafTag = CleanOrNull(photo.LeafTag, "a leaf's label"),
                photo.RunId,
                now = Now(),
            },
            transaction);
        AddReading(transaction, photoId, photo.Reading, photo.Origin, photo.RunId);
        if (plantId is { } plant)
        {
            PlantDays.Add(transaction, plant, photo.WalkId, photo.Reading.Kind, photo.Reading.Leaves.Count, photo.Reading.Leaves.Sum(leaf => leaf.Damage));
        }

        connection.Execute(
            "UPDATE refused_file SET mended_utc = @now WHERE walk_id = @WalkId AND path_seen = @Path AND mended_utc IS NULL",
            new { photo.WalkId, photo.Facts.Path, now = Now() }, transaction);
        return new PhotoRecorded(true, PhotoOf(connection, photo.Facts.Sha256, transaction)!);
    });

    /// <summary>Keeps a second measurement of a photo. It becomes the current one; the old reading stays on record.</summary>
    /// <param name="photoId">Photo.</param>
    /// <param name="reading">What was measured.</param>
    /// <param name="origin">What made it.</param>
    /// <param name="runId">Run that brought it; null when there is none.</param>
    /// <param name="settled">Corrections, standing and taken back, that this reading takes into account; null for none.</param>
    public void RecordReading(long photoId, PhotoReading reading, ReadingOrigin origin, long? runId = null, IReadOnlyList<Correction>? settled = null) => Write(transaction =>
    {
        foreach (Correction correction in settled ?? [])
        {
            // One that was taken back while the photo was measured stays unsettled.
            transaction.Connection!.Execute(
                "UPDATE correction SET is_settled = 1 WHERE id = @Id AND (taken_back_utc IS NOT NULL) = @IsTakenBack", new { correction.Id, correction.IsTakenBack }, transaction);
        }

        long leavesBefore = transaction.Connection!.QuerySingle<long>(
            "SELECT count(*) FROM leaf JOIN reading ON reading.id = leaf.reading_id WHERE reading.photo_id = @photoId AND reading.is_current = 1", new { photoId }, transaction);
        transaction.Connection!.Execute("UPDATE reading SET is_current = 0 WHERE photo_id = @photoId AND is_current = 1", new { photoId }, transaction);
        AddReading(transaction, photoId, reading, origin, runId);
        DropLeafNotesIfCountChanged(transaction, photoId, leavesBefore, reading.Leaves.Count);
        PlantDays.RenewOf(transaction, photoId);
        return 0;
    });

    /// <summary>Keeps the refusal of a file; a later refusal of the same file in the same walk takes its place.</summary>
    public void RecordRefusal(NewRefusal refusal) => Write(transaction => transaction.Connection!.Execute(
        """
        INSERT INTO refused_file (walk_id, file_name, path_seen, sha256, reason, advice, run_id, refused_utc)
        VALUES (@WalkId, @FileName, @PathSeen, @Sha256, @Reason, @Advice, @RunId, @now)
        ON CONFLICT (walk_id, path_seen) DO UPDATE SET sha256 = excluded.sha256, reason = excluded.reason, advice = excluded.advice,
            run_id = excluded.run_id, refused_utc = excluded.refused_utc, mended_utc = NULL
        """,
        new
        {
            refusal.WalkId,
            refusal.Refusal.FileName,
            refusal.PathSeen,
            refusal.Sha256,
            refusal.Refusal.Reason,
            refusal.Refusal.Advice,
            refusal.RunId,
            now = Now(),
        },
        transaction));

    /// <summary>Moves a photo to another plant of the same place, or to none. The old plant is kept among the edits.</summary>
    /// <param name="photoId">Photo.</param>
    /// <param name="plantCode">Code of the new plant, begun when there is none; null for none.</param>
    /// <param name="reason">Why.</param>
    public void MovePhoto(long photoId, string? plantCode, string reason) => MovePhotos([photoId], plantCode, reason);

    /// <summary>Moves several photos of one place to another plant or to none, as one change that is undone together.</summary>
    /// <param name="photoIds">Photos.</param>
    /// <param name="plantCode">Code of the new plant, begun when there is none; null for none.</param>
    /// <param name="reason">Why.</param>
    public void MovePhotos(IReadOnlyCollection<long> photoIds, string? plantCode, string reason) => Write(transaction =>
    {
        SqliteConnection connection = transaction.Connection!;
        var note = new ChangeNote(transaction, reason, Now());
        foreach (long photoId in photoIds)
        {
            Row.OfPhoto old = connection.QuerySingle<Row.OfPhoto>($"{Row.OfPhoto.Select} WHERE photo.id = @photoId", new { photoId }, transaction);
            string? now = PutPlant(transaction, photoId, plantCode, PlantSource.ByHand);
            note.Keep("photo", photoId, "plant", old.PlantCode, now);
            note.Keep("photo", photoId, "plant_by", old.PlantBy, PlantGuess.WordOf(now is null ? PlantSource.Unknown : PlantSource.ByHand));
        }

        return 0;
    });

    private string? PutPlant(SqliteTransaction transaction, long photoId, string? plantCode, PlantSource source)
    {
        SqliteConnection connection = transaction.Connection!;
        Row.OfWalk walk = connection.QuerySingle<Row.OfWalk>(
            "SELECT walk.id AS Id, walk.place_id AS PlaceId FROM photo JOIN walk ON walk.id = photo.walk_id WHERE photo.id = @photoId", new { photoId }, transaction);
        long? before = connection.QuerySingle<long?>("SELECT plant_id FROM photo WHERE id = @photoId", new { photoId }, transaction);
        Plant? plant = plantCode is null ? null : PlantOf(transaction, walk.PlaceId, NameText.CleanOrThrow(plantCode, "a plant code"));
        connection.Execute(
            "UPDATE photo SET plant_id = @plantId, plant_by = @plantBy WHERE id = @photoId",
            new { photoId, plantId = plant?.Id, plantBy = PlantGuess.WordOf(plant is null ? PlantSource.Unknown : source) }, transaction);
        PlantDays.Renew(transaction, before, walk.Id);
        PlantDays.Renew(transaction, plant?.Id, walk.Id);
        return plant?.Code;
    }

    private void AddReading(SqliteTransaction transaction, long photoId, PhotoReading reading, ReadingOrigin origin, long? runId)
    {
        SqliteConnection connection = transaction.Connection!;
        long readingId = connection.QuerySingle<long>(
            """
            INSERT INTO reading (photo_id, is_current, tool_version, options_hash, model_version, measured_utc, kind, pixels_per_mm, flags, run_id)
            VALUES (@photoId, 1, @ToolVersion, @OptionsHash, @ModelVersion, @now, @Kind, @PixelsPerMm, @flags, @runId)
            RETURNING id
            """,
            new
            {
                photoId,
                origin.ToolVersion,
                origin.OptionsHash,
                origin.ModelVersion,
                now = Now(),
                reading.Kind,
                reading.PixelsPerMm,
                flags = ShapeText.Of(reading.Flags),
                runId,
            },
            transaction);
        for (int ordinal = 0; ordinal < reading.Leaves.Count; ordinal++)
        {
            LeafInsert.Add(transaction, readingId, ordinal, reading.Leaves[ordinal]);
        }
    }

    private static PhotoOnRecord? PhotoOf(SqliteConnection connection, string sha256, SqliteTransaction? transaction)
        => connection.QuerySingleOrDefault<Row.OfPhoto>($"{Row.OfPhoto.Select} WHERE photo.sha256 = @sha256", new { sha256 }, transaction)?.ToPhoto();

    private static string FormatWord(PhotoFormat format) => format switch
    {
        PhotoFormat.Jpeg => "jpeg",
        PhotoFormat.Png => "png",
        PhotoFormat.Heic => "heic",
        _ => throw new ArgumentOutOfRangeException(nameof(format), format, "Only formats that are read can be kept."),
    };
}
