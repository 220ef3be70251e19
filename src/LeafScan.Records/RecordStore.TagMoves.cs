using Dapper;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    /// <summary>Gives photos to the plants that a late tag tells, as one change that is undone together. What each had is kept among the edits, with why.</summary>
    /// <param name="moves">Photos of one place and what the tag tells of each.</param>
    public void MovePhotosByTag(IReadOnlyCollection<(long PhotoId, PlantGuess Plant)> moves) => Write(transaction =>
    {
        var note = new ChangeNote(transaction, TagMove.Reason, Now());
        foreach ((long photoId, PlantGuess plant) in moves)
        {
            Row.OfPhoto old = transaction.Connection!.QuerySingle<Row.OfPhoto>($"{Row.OfPhoto.Select} WHERE photo.id = @photoId", new { photoId }, transaction);
            string? now = PutPlant(transaction, photoId, plant.Code, plant.Source);
            note.Keep("photo", photoId, "plant", old.PlantCode, now, TagMove.Reason + plant.Because);
            note.Keep("photo", photoId, "plant_by", old.PlantBy, PlantGuess.WordOf(now is null ? PlantSource.Unknown : plant.Source), TagMove.Reason + plant.Because);
        }

        return 0;
    });

    /// <summary>What late tags moved on a walk, newest first, with what was taken back.</summary>
    /// <param name="walkId">Walk.</param>
    public IReadOnlyList<TagMove> TagMoves(long walkId) => Read(connection => connection.Query<TagMoveRow>(
        $"""
        SELECT change_id AS ChangeId, photo.id AS PhotoId, file_name AS FileName, old_value AS Before, new_value AS After, reason AS Reason, edited_utc AS EditedUtc, undone_utc AS UndoneUtc
        FROM edit JOIN photo ON photo.id = edit.row_id
        WHERE edit.table_name = 'photo' AND edit.field = 'plant' AND edit.reason LIKE '{TagMove.Reason}%' AND photo.walk_id = @walkId ORDER BY edit.id DESC
        """,
        new { walkId }).Select(row => row.ToMove()).ToList());

    /// <summary>
    /// Photos of a walk whose plant a person decided: given by hand, taken from a plant by hand, or a tag's doing taken back. No tag moves
    /// them.
    /// </summary>
    /// <param name="walkId">Walk.</param>
    public IReadOnlySet<long> PhotosDecidedByHand(long walkId) => Read(connection => connection.Query<long>(
        $"""
        SELECT photo.id FROM photo WHERE walk_id = @walkId AND (plant_by = @hand OR EXISTS (
            SELECT 1 FROM edit WHERE table_name = 'photo' AND row_id = photo.id AND field = 'plant' AND (reason LIKE '{TagMove.Reason}%') = (undone_utc IS NOT NULL)))
        """,
        new { walkId, hand = PlantGuess.WordOf(PlantSource.ByHand) }).ToHashSet());

    /// <summary>Tells listeners anew of photos that came by the page, because something other than their reading changed.</summary>
    /// <param name="photoIds">Photos; one that came another way is passed over.</param>
    public void TellUploadsAgain(IReadOnlyCollection<long> photoIds) => Write(transaction =>
    {
        foreach (long upload in transaction.Connection!.Query<long>("SELECT id FROM upload WHERE photo_id IN @photoIds ORDER BY id", new { photoIds }, transaction).ToList())
        {
            AddUploadEvent(transaction, upload, UploadState.Measured);
        }

        return 0;
    });

    private sealed class TagMoveRow
    {
        public long ChangeId { get; init; }

        public long PhotoId { get; init; }

        public string FileName { get; init; } = "";

        public string? Before { get; init; }

        public string? After { get; init; }

        public string Reason { get; init; } = "";

        public string EditedUtc { get; init; } = "";

        public string? UndoneUtc { get; init; }

        public TagMove ToMove() => new(ChangeId, PhotoId, FileName, Before, After, TagMove.BecauseOf(Reason)!, UtcText.Time(EditedUtc), UndoneUtc is not null);
    }
}
