using Dapper;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    /// <summary>Keeps that a photo was received whole. The same bytes twice in a walk are one upload: the first stays as it is.</summary>
    public UploadOnRecord AddUpload(NewUpload upload) => Write(transaction =>
    {
        SqliteConnection connection = transaction.Connection!;
        long? id = connection.QuerySingleOrDefault<long?>(
            """
            INSERT INTO upload (walk_id, sha256, file_name, folder, plant_id, stored_as, state, received_utc)
            VALUES (@WalkId, @Sha256, @FileName, @Folder, @PlantId, @StoredAs, 'waiting', @now) ON CONFLICT (walk_id, sha256) DO NOTHING RETURNING id
            """,
            new { upload.WalkId, upload.Sha256, upload.FileName, upload.Folder, upload.PlantId, upload.StoredAs, now = Now() }, transaction);
        if (id is { } added)
        {
            AddUploadEvent(transaction, added, UploadState.Waiting);
        }

        return connection.QuerySingle<UploadRow>($"{UploadRow.Select} WHERE walk_id = @WalkId AND sha256 = @Sha256", upload, transaction).ToUpload();
    });

    /// <summary>The upload with these bytes in a walk; null when there is none.</summary>
    public UploadOnRecord? FindUpload(long walkId, string sha256) => Read(connection => connection.QuerySingleOrDefault<UploadRow>(
        $"{UploadRow.Select} WHERE walk_id = @walkId AND sha256 = @sha256", new { walkId, sha256 })?.ToUpload());

    /// <summary>The upload with these bytes that waits in any walk; null when there is none.</summary>
    public UploadOnRecord? FindWaitingUpload(string sha256) => Read(connection => connection.QueryFirstOrDefault<UploadRow>(
        $"{UploadRow.Select} WHERE sha256 = @sha256 AND state = 'waiting' ORDER BY id", new { sha256 })?.ToUpload());

    /// <summary>The upload that waits longest; null when none waits.</summary>
    public UploadOnRecord? NextWaitingUpload() => Read(connection => connection.QueryFirstOrDefault<UploadRow>(
        $"{UploadRow.Select} WHERE state = 'waiting' ORDER BY id LIMIT 1")?.ToUpload());

    /// <summary>Uploads of a walk that wait, in the order they came.</summary>
    public IReadOnlyList<UploadOnRecord> WaitingUploads(long walkId) => Read(connection => connection.Query<UploadRow>(
        $"{UploadRow.Select} WHERE walk_id = @walkId AND state = 'waiting' ORDER BY id", new { walkId }).Select(row => row.ToUpload()).ToList());

    /// <summary>Notes that measuring begins. The upload stays waiting until it is done.</summary>
    public void NoteMeasuring(long uploadId) => Write(transaction =>
    {
        AddUploadEvent(transaction, uploadId, UploadState.Measuring);
        return 0;
    });

    /// <summary>Notes that the photo of an upload is on record.</summary>
    public void EndUpload(long uploadId, long photoId) => Write(transaction =>
    {
        transaction.Connection!.Execute("UPDATE upload SET state = 'measured', photo_id = @photoId WHERE id = @uploadId", new { uploadId, photoId }, transaction);
        AddUploadEvent(transaction, uploadId, UploadState.Measured);
        return 0;
    });

    /// <summary>Notes that an upload was refused.</summary>
    /// <param name="uploadId">Upload.</param>
    /// <param name="word">Why, in a word or two.</param>
    /// <param name="reason">Why, one sentence.</param>
    /// <param name="advice">What to do, one sentence.</param>
    public void RefuseUpload(long uploadId, string word, string reason, string advice) => Write(transaction =>
    {
        transaction.Connection!.Execute(
            "UPDATE upload SET state = 'refused', word = @word, reason = @reason, advice = @advice WHERE id = @uploadId", new { uploadId, word, reason, advice }, transaction);
        AddUploadEvent(transaction, uploadId, UploadState.Refused);
        return 0;
    });

    /// <summary>What happened to uploads after an event, oldest first.</summary>
    /// <param name="after">Number of an event; 0 for all.</param>
    /// <param name="walkId">Only of this walk; null for all.</param>
    /// <param name="most">At most so many.</param>
    public IReadOnlyList<UploadEvent> UploadEvents(long after, long? walkId, int most = 200) => Read(connection => connection.Query<UploadEventRow>(
        $"""
        SELECT upload_event.id AS EventId, upload_event.state AS EventState, {UploadRow.Columns}
        FROM upload_event JOIN upload ON upload.id = upload_event.upload_id
        WHERE upload_event.id > @after AND (@walkId IS NULL OR upload.walk_id = @walkId) ORDER BY upload_event.id LIMIT @most
        """,
        new { after, walkId, most }).Select(row => row.ToEvent()).ToList());

    /// <summary>Number of the last event; 0 when there is none.</summary>
    public long LastUploadEvent() => Read(connection => connection.ExecuteScalar<long>("SELECT coalesce(max(id), 0) FROM upload_event"));

    /// <summary>How many uploads stand how.</summary>
    /// <param name="walkId">Only of this walk; null for all.</param>
    public UploadCounts CountUploads(long? walkId = null) => Read(connection =>
    {
        Dictionary<string, int> counts = connection.Query<(string State, long Count)>(
            "SELECT state, count(*) FROM upload WHERE @walkId IS NULL OR walk_id = @walkId GROUP BY state", new { walkId }).ToDictionary(row => row.State, row => (int)row.Count);
        return new UploadCounts(counts.GetValueOrDefault("waiting"), counts.GetValueOrDefault("measured"), counts.GetValueOrDefault("refused"));
    });

    /// <summary>Walks with their counts, newest first.</summary>
    public IReadOnlyList<WalkSums> WalkList() => Read(connection => connection.Query<WalkSumsRow>(
        $"""
        SELECT walk.id AS Id, walk.place_id AS PlaceId, walk.walked_on AS WalkedOn, walk.recorded_utc AS RecordedUtc, place.name AS PlaceName,
            (SELECT count(*) FROM photo WHERE photo.walk_id = walk.id AND photo.deleted_utc IS NULL) AS Photos,
            (SELECT count(*) FROM refused_file WHERE refused_file.walk_id = walk.id AND mended_utc IS NULL) AS Refused,
            (SELECT count(*) FROM upload WHERE upload.walk_id = walk.id AND upload.state = 'waiting') AS Waiting
        FROM walk JOIN place ON place.id = walk.place_id ORDER BY walk.walked_on DESC, walk.id DESC
        """).Select(row => row.ToSums()).ToList());

    private void AddUploadEvent(SqliteTransaction transaction, long uploadId, UploadState state) => transaction.Connection!.Execute(
        "INSERT INTO upload_event (upload_id, state, at_utc) VALUES (@uploadId, @state, @now)", new { uploadId, state = state.ToString().ToLowerInvariant(), now = Now() }, transaction);

    private class UploadRow
    {
        public const string Columns = """
            upload.id AS Id, upload.walk_id AS WalkId, upload.sha256 AS Sha256, upload.file_name AS FileName, upload.folder AS Folder, upload.plant_id AS PlantId,
            upload.stored_as AS StoredAs, upload.state AS State, upload.photo_id AS PhotoId, upload.word AS Word, upload.reason AS Reason, upload.advice AS Advice
            """;

        public const string Select = $"SELECT {Columns} FROM upload";

        public long Id { get; init; }

        public long WalkId { get; init; }

        public string Sha256 { get; init; } = "";

        public string FileName { get; init; } = "";

        public string Folder { get; init; } = "";

        public long? PlantId { get; init; }

        public string StoredAs { get; init; } = "";

        public string State { get; init; } = "";

        public long? PhotoId { get; init; }

        public string? Word { get; init; }

        public string? Reason { get; init; }

        public string? Advice { get; init; }

        public UploadOnRecord ToUpload() => new(
            Id,
            new NewUpload { WalkId = WalkId, Sha256 = Sha256, FileName = FileName, Folder = Folder, PlantId = PlantId, StoredAs = StoredAs },
            Enum.Parse<UploadState>(State, ignoreCase: true), PhotoId, Word, Reason, Advice);
    }

    private sealed class UploadEventRow : UploadRow
    {
        public long EventId { get; init; }

        public string EventState { get; init; } = "";

        public UploadEvent ToEvent() => new(EventId, Enum.Parse<UploadState>(EventState, ignoreCase: true), ToUpload());
    }

    private sealed class WalkSumsRow
    {
        public long Id { get; init; }

        public long PlaceId { get; init; }

        public string WalkedOn { get; init; } = "";

        public string RecordedUtc { get; init; } = "";

        public string PlaceName { get; init; } = "";

        public long Photos { get; init; }

        public long Refused { get; init; }

        public long Waiting { get; init; }

        public WalkSums ToSums() => new(new Walk(Id, PlaceId, UtcText.Date(WalkedOn), UtcText.Time(RecordedUtc)), PlaceName, (int)Photos, (int)Refused, (int)Waiting);
    }
}
