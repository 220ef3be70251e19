using System.Globalization;
using System.Text.Json;
using Dapper;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    /// <summary>Keeps what was done to a plant.</summary>
    /// <param name="plantId">Plant.</param>
    /// <param name="doneOn">Local calendar day.</param>
    /// <param name="what">What was done.</param>
    /// <param name="note">More in words; null for none.</param>
    /// <param name="details">More of it; null for none.</param>
    /// <param name="undoable">Why, when undo is to take the entry into the bin; null leaves undo to what was changed before.</param>
    public CareEntry AddCare(long plantId, DateOnly doneOn, CareKind what, string? note = null, CareDetails? details = null, string? undoable = null)
    {
        details ??= new CareDetails();
        long id = Write(transaction => Undoable(transaction, "care", undoable, transaction.Connection!.QuerySingle<long>(
            """
            INSERT INTO care (plant_id, done_on, what, note, done_at, active, mode_group, label_number, target, conditions, recorded_utc)
            VALUES (@plantId, @day, @word, @note, @at, @Active, @ModeGroup, @LabelNumber, @Target, @Conditions, @now) RETURNING id
            """,
            new
            {
                plantId,
                day = UtcText.Of(doneOn),
                word = CareWord(what),
                note,
                at = details.At?.ToString("HH:mm", CultureInfo.InvariantCulture),
                details.Active,
                details.ModeGroup,
                details.LabelNumber,
                details.Target,
                details.Conditions,
                now = Now(),
            },
            transaction)));
        return new CareEntry(id, plantId, doneOn, what, note) { Details = details };
    }

    /// <summary>Changes a care entry; each value that changes is kept among the edits and comes back with undo. Plant and number stay.</summary>
    /// <param name="id">Its number.</param>
    /// <param name="change">Gives the entry as it should be.</param>
    /// <param name="reason">Why, for the edits.</param>
    /// <returns>The entry as it is now; null when there is none of this number, or it lies in the bin.</returns>
    public CareEntry? EditCare(long id, Func<CareEntry, CareEntry> change, string reason) => Write(transaction =>
    {
        SqliteConnection connection = transaction.Connection!;
        if (CareById(connection, id, transaction) is not { } old)
        {
            return null;
        }

        CareEntry wanted = change(old);
        connection.Execute(
            """
            UPDATE care SET done_on = @done_on, what = @what, note = @note, done_at = @done_at, active = @active, mode_group = @mode_group,
                label_number = @label_number, target = @target, conditions = @conditions WHERE id = @id
            """,
            Parameters(id, Fields(wanted)), transaction);
        KeepChanges(transaction, "care", id, Fields(old), Fields(wanted), reason);
        return CareById(connection, id, transaction);
    });

    /// <summary>One care entry; null when there is none of this number, or it lies in the bin.</summary>
    public CareEntry? FindCare(long id) => Read(connection => CareById(connection, id, null));

    /// <summary>Care entries of a plant, oldest first; those in the bin are left out.</summary>
    public IReadOnlyList<CareEntry> CareOfPlant(long plantId) => [.. CareOfPlants([plantId])[plantId]];

    /// <summary>Care entries of several plants in one question, by plant, each oldest first.</summary>
    public ILookup<long, CareEntry> CareOfPlants(IEnumerable<long> plantIds) => Read(connection => connection.Query<CareRow>(
        $"{CareRow.Select} JOIN json_each(@ids) AS asked ON care.plant_id = asked.value WHERE deleted_utc IS NULL ORDER BY done_on, care.id", new { ids = JsonSerializer.Serialize(plantIds) })
        .Select(row => row.ToCare()).ToLookup(entry => entry.PlantId));

    // An addition is undone by putting what was added into the bin.
    private long Undoable(SqliteTransaction transaction, string table, string? reason, long id)
    {
        if (reason is not null)
        {
            new ChangeNote(transaction, reason, Now()).Keep(table, id, BinField, "yes", "no");
        }

        return id;
    }

    private static CareEntry? CareById(SqliteConnection connection, long id, SqliteTransaction? transaction)
        => connection.QuerySingleOrDefault<CareRow>($"{CareRow.Select} WHERE care.id = @id AND deleted_utc IS NULL", new { id }, transaction)?.ToCare();

    private static (string Field, string? Value)[] Fields(CareEntry entry) =>
    [
        ("done_on", UtcText.Of(entry.DoneOn)), ("what", CareWord(entry.What)), ("note", entry.Note), ("done_at", entry.Details.At?.ToString("HH:mm", CultureInfo.InvariantCulture)),
        ("active", entry.Details.Active), ("mode_group", entry.Details.ModeGroup), ("label_number", entry.Details.LabelNumber), ("target", entry.Details.Target),
        ("conditions", entry.Details.Conditions),
    ];

    // Columns take numbers as text and keep them as numbers, so that what is written and what is kept among the edits is the same.
    private static DynamicParameters Parameters(long id, (string Field, string? Value)[] fields)
    {
        var all = new DynamicParameters();
        all.Add("id", id);
        foreach ((string field, string? value) in fields)
        {
            all.Add(field, value);
        }

        return all;
    }

    private void KeepChanges(SqliteTransaction transaction, string table, long id, (string Field, string? Value)[] before, (string Field, string? Value)[] after, string reason)
    {
        var note = new ChangeNote(transaction, reason, Now());
        for (int i = 0; i < before.Length; i++)
        {
            note.Keep(table, id, before[i].Field, before[i].Value, after[i].Value);
        }
    }

    private static string CareWord(CareKind what) => what switch
    {
        CareKind.Rinse => "rinse",
        CareKind.Soap => "soap",
        CareKind.Oil => "oil",
        CareKind.Predators => "predators",
        CareKind.Miticide => "miticide",
        CareKind.Pruning => "pruning",
        CareKind.Nothing => "nothing",
        _ => throw new ArgumentOutOfRangeException(nameof(what), what, "Not a kind of care."),
    };

    private sealed class CareRow
    {
        public const string Select = """
            SELECT care.id AS Id, plant_id AS PlantId, done_on AS DoneOn, what AS What, note AS Note, done_at AS DoneAt, active AS Active,
                mode_group AS ModeGroup, label_number AS LabelNumber, target AS Target, conditions AS Conditions FROM care
            """;

        public long Id { get; init; }

        public long PlantId { get; init; }

        public string DoneOn { get; init; } = "";

        public string What { get; init; } = "";

        public string? Note { get; init; }

        public string? DoneAt { get; init; }

        public string? Active { get; init; }

        public string? ModeGroup { get; init; }

        public string? LabelNumber { get; init; }

        public string? Target { get; init; }

        public string? Conditions { get; init; }

        public CareEntry ToCare() => new(Id, PlantId, UtcText.Date(DoneOn), Enum.Parse<CareKind>(What, ignoreCase: true), Note)
        {
            Details = new CareDetails
            {
                At = DoneAt is null ? null : TimeOnly.ParseExact(DoneAt, "HH:mm", CultureInfo.InvariantCulture),
                Active = Active,
                ModeGroup = ModeGroup,
                LabelNumber = LabelNumber,
                Target = Target,
                Conditions = Conditions,
            },
        };
    }
}
