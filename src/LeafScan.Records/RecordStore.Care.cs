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
