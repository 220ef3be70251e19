using System.Globalization;
using Dapper;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    /// <summary>Notes how old the leaves of a photo are and which tagged leaf it shows; the old values are kept among the edits.</summary>
    /// <param name="photoId">Photo.</param>
    /// <param name="age">Age; null for not told.</param>
    /// <param name="tag">Label of the leaf, 1 to 80 characters; null for a leaf picked that day. Counts only while the photo shows one leaf.</param>
    /// <param name="reason">Why.</param>
    public void NotePhotoLeaf(long photoId, LeafGrowth? age, string? tag, string reason) => Write(transaction =>
    {
        SqliteConnection connection = transaction.Connection!;
        Row.OfPhoto old = connection.QuerySingle<Row.OfPhoto>("SELECT leaf_age AS LeafAge, leaf_tag AS LeafTag FROM photo WHERE id = @photoId", new { photoId }, transaction);
        var wanted = new { photoId, age = StoreWords.Of(age), tag = CleanOrNull(tag, "a leaf's label") };
        connection.Execute("UPDATE photo SET leaf_age = @age, leaf_tag = @tag WHERE id = @photoId", wanted, transaction);
        var note = new ChangeNote(transaction, reason, Now());
        note.Keep("photo", photoId, "leaf_age", old.LeafAge, wanted.age);
        note.Keep("photo", photoId, "leaf_tag", old.LeafTag, wanted.tag);
        return 0;
    });

    /// <summary>The same for one leaf of a photo that shows several; goes before what the photo says.</summary>
    /// <param name="photoId">Photo.</param>
    /// <param name="ordinal">Place among the leaves of the photo, 0 for the largest.</param>
    /// <param name="age">Age; null to leave it to the photo.</param>
    /// <param name="tag">Label; null to leave it to the photo.</param>
    /// <param name="reason">Why.</param>
    /// <exception cref="RecordException">The photo has no such leaf.</exception>
    public void NoteLeaf(long photoId, int ordinal, LeafGrowth? age, string? tag, string reason) => Write(transaction =>
    {
        SqliteConnection connection = transaction.Connection!;
        var key = new { photoId, ordinal };
        long leaves = connection.QuerySingle<long>(
            "SELECT count(*) FROM leaf JOIN reading ON reading.id = leaf.reading_id WHERE reading.photo_id = @photoId AND reading.is_current = 1", key, transaction);
        if (ordinal < 0 || ordinal >= leaves)
        {
            throw new RecordException(
                RecordTrouble.WrongValue, string.Create(CultureInfo.InvariantCulture, $"The photo has {leaves} measured leaves, so there is no leaf {ordinal + 1}."), "Nothing was written.", "Count from 1, the largest leaf.");
        }

        NoteRow? old = connection.QuerySingleOrDefault<NoteRow>("SELECT age AS Age, tag AS Tag FROM leaf_note WHERE photo_id = @photoId AND ordinal = @ordinal", key, transaction);
        (string? ageWord, string? label) = (StoreWords.Of(age), CleanOrNull(tag, "a leaf's label"));
        PutLeafNote(transaction, photoId, ordinal, "age", ageWord);
        PutLeafNote(transaction, photoId, ordinal, "tag", label);
        var note = new ChangeNote(transaction, reason, Now());
        note.Keep("photo", photoId, NameOfField("age", ordinal), old?.Age, ageWord);
        note.Keep("photo", photoId, NameOfField("tag", ordinal), old?.Tag, label);
        return 0;
    });

    /// <summary>Every leaf of several plants' current readings in one question, by plant, day, photo and place in the photo.</summary>
    /// <param name="plantIds">Plants.</param>
    /// <param name="first">First day; null for all.</param>
    /// <param name="last">Last day; null for all.</param>
    /// <param name="kind">leaf, twig or plant; null for each plant's own: leaf where it has any, else twig, else plant. Kinds are never mixed.</param>
    public IReadOnlyList<LeafOnRecord> LeavesOfPlants(IEnumerable<long> plantIds, DateOnly? first = null, DateOnly? last = null, string? kind = null) => Read(connection => LeafRows.Read(
        connection,
        kind,
        "plant_id IN (SELECT value FROM json_each($ids))",
        "walk.walked_on BETWEEN $first AND $last",
        ("$ids", System.Text.Json.JsonSerializer.Serialize(plantIds)), ("$first", UtcText.Of(first ?? DateOnly.MinValue)), ("$last", UtcText.Of(last ?? DateOnly.MaxValue))));

    /// <summary>The damage of every leaf of several plants' current readings, in the same order: what a block's, a place's or a client's means need.</summary>
    /// <param name="plantIds">Plants.</param>
    /// <param name="kind">As above.</param>
    public IReadOnlyList<LeafDamage> DamageOfPlants(IEnumerable<long> plantIds, string? kind = null) => Read(connection => LeafRows.ReadDamage(
        connection, kind, "plant_id IN (SELECT value FROM json_each($ids))", null, ("$ids", System.Text.Json.JsonSerializer.Serialize(plantIds))));

    /// <summary>The leaves of each plant's last walk that has any, by plant, photo and place in the photo.</summary>
    /// <param name="placeName">Only of this place; null for all.</param>
    public IReadOnlyList<LeafOnRecord> LeavesOfLastWalks(string? placeName = null)
        => Read(connection => LeafRows.Read(connection, null, PlantsOfPlace, LastWalk, ("$place", KeyOrNone(placeName))));

    /// <summary>The damage of the same leaves, in the same order: what a list of plants needs.</summary>
    /// <param name="placeName">Only of this place; null for all.</param>
    public IReadOnlyList<LeafDamage> DamageOfLastWalks(string? placeName = null)
        => Read(connection => LeafRows.ReadDamage(connection, null, PlantsOfPlace, LastWalk, ("$place", KeyOrNone(placeName))));

    private const string PlantsOfPlace = "plant_id IN (SELECT plant.id FROM plant JOIN place ON place.id = plant.place_id WHERE $place IS NULL OR place.name_key = $place)";

    private const string LastWalk = "walk.walked_on = asked.last_on AND walk.place_id = (SELECT place_id FROM plant WHERE plant.id = asked.plant_id)";

    private static void PutLeafNote(SqliteTransaction transaction, long photoId, int ordinal, string column, string? value)
    {
        SqliteConnection connection = transaction.Connection!;
        var row = new { photoId, ordinal, value };
        connection.Execute(
            $"INSERT INTO leaf_note (photo_id, ordinal, {column}) VALUES (@photoId, @ordinal, @value) ON CONFLICT (photo_id, ordinal) DO UPDATE SET {column} = excluded.{column}", row, transaction);
        connection.Execute("DELETE FROM leaf_note WHERE photo_id = @photoId AND ordinal = @ordinal AND age IS NULL AND tag IS NULL", row, transaction);
    }

    // A leaf has no lasting number of its own: measuring again makes new ones. Its place in the photo stands in the field's name.
    private static string NameOfField(string column, int ordinal) => string.Create(CultureInfo.InvariantCulture, $"leaf {ordinal} {column}");

    private static (int Ordinal, string Column)? LeafNoteField(string field)
        => field.Split(' ') is ["leaf", string number, "age" or "tag"] parts && int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out int ordinal) ? (ordinal, parts[2]) : null;

    /// <summary>What is noted of single leaves goes when a new reading finds another number of leaves: nothing says which is which.</summary>
    private void DropLeafNotesIfCountChanged(SqliteTransaction transaction, long photoId, long countBefore, int countNow)
    {
        if (countBefore == countNow)
        {
            return;
        }

        SqliteConnection connection = transaction.Connection!;
        var note = new ChangeNote(transaction, "measured again, with another number of leaves", Now());
        foreach (NoteRow row in connection.Query<NoteRow>("SELECT ordinal AS Ordinal, age AS Age, tag AS Tag FROM leaf_note WHERE photo_id = @photoId", new { photoId }, transaction).ToList())
        {
            note.Keep("photo", photoId, NameOfField("age", (int)row.Ordinal), row.Age, null);
            note.Keep("photo", photoId, NameOfField("tag", (int)row.Ordinal), row.Tag, null);
        }

        connection.Execute("DELETE FROM leaf_note WHERE photo_id = @photoId", new { photoId }, transaction);
    }

    private sealed class NoteRow
    {
        public long Ordinal { get; init; }

        public string? Age { get; init; }

        public string? Tag { get; init; }
    }
}
