using Dapper;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    private const string BinField = "bin";

    /// <summary>Puts something into the bin: it stays in the file but counts nowhere. Kept among the edits.</summary>
    /// <param name="kind">What it is.</param>
    /// <param name="id">Its number.</param>
    /// <param name="reason">Why.</param>
    /// <returns>False when there is none of this number or it lies there already.</returns>
    public bool PutInBin(BinKind kind, long id, string reason) => Write(transaction => MoveBin(transaction, kind, id, true, reason));

    /// <summary>Takes something back out of the bin. Kept among the edits.</summary>
    /// <param name="kind">What it is.</param>
    /// <param name="id">Its number.</param>
    /// <param name="reason">Why.</param>
    /// <returns>False when it is not in the bin.</returns>
    public bool TakeFromBin(BinKind kind, long id, string reason) => Write(transaction => MoveBin(transaction, kind, id, false, reason));

    /// <summary>What lies in the bin, newest first.</summary>
    public IReadOnlyList<BinEntry> Bin() => Read(connection => connection.Query<BinRow>(
        """
        SELECT 'Photo' AS Kind, photo.id AS Id, photo.file_name AS Words, plant.code AS PlantCode, place.name AS PlaceName, walk.walked_on AS Day, photo.deleted_utc AS DeletedUtc
        FROM photo JOIN walk ON walk.id = photo.walk_id JOIN place ON place.id = walk.place_id LEFT JOIN plant ON plant.id = photo.plant_id
        WHERE photo.deleted_utc IS NOT NULL
        UNION ALL
        SELECT 'Tap', tap.id, 'tap, ' || coalesce(mites_by_lens, mites_by_photo) || ' mites', plant.code, place.name, tapped_on, tap.deleted_utc
        FROM tap JOIN plant ON plant.id = tap.plant_id JOIN place ON place.id = plant.place_id WHERE tap.deleted_utc IS NOT NULL
        UNION ALL
        SELECT 'Care', care.id, what, plant.code, place.name, done_on, care.deleted_utc
        FROM care JOIN plant ON plant.id = care.plant_id JOIN place ON place.id = plant.place_id WHERE care.deleted_utc IS NOT NULL
        ORDER BY 7 DESC, 1, 2
        """).Select(row => row.ToEntry()).ToList());

    private bool MoveBin(SqliteTransaction transaction, BinKind kind, long id, bool isIn, string reason)
    {
        if (!SetBin(transaction, TableOf(kind), id, isIn))
        {
            return false;
        }

        new ChangeNote(transaction, reason, Now()).Keep(TableOf(kind), id, BinField, isIn ? "no" : "yes", isIn ? "yes" : "no");
        return true;
    }

    private bool SetBin(SqliteTransaction transaction, string table, long id, bool isIn)
    {
        int changed = transaction.Connection!.Execute(
            $"UPDATE {table} SET deleted_utc = @time WHERE id = @id AND (deleted_utc IS NULL) = @isIn", new { id, isIn, time = isIn ? Now() : null }, transaction);
        if (changed > 0 && table == "photo")
        {
            PlantDays.RenewOf(transaction, id);
        }

        return changed > 0;
    }

    private static string TableOf(BinKind kind) => kind switch
    {
        BinKind.Photo => "photo",
        BinKind.Tap => "tap",
        BinKind.Care => "care",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Not a kind of thing in the bin."),
    };

    private sealed class BinRow
    {
        public string Kind { get; init; } = "";

        public long Id { get; init; }

        public string Words { get; init; } = "";

        public string? PlantCode { get; init; }

        public string PlaceName { get; init; } = "";

        public string Day { get; init; } = "";

        public string DeletedUtc { get; init; } = "";

        public BinEntry ToEntry() => new(Enum.Parse<BinKind>(Kind), Id, Words, PlantCode, PlaceName, UtcText.Date(Day), UtcText.Time(DeletedUtc));
    }
}
