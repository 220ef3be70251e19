using Dapper;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    /// <summary>Keeps what was done to a plant.</summary>
    /// <param name="plantId">Plant.</param>
    /// <param name="doneOn">Local calendar day.</param>
    /// <param name="what">What was done.</param>
    /// <param name="note">More in words; null for none.</param>
    public CareEntry AddCare(long plantId, DateOnly doneOn, CareKind what, string? note = null)
    {
        long id = Write(transaction => transaction.Connection!.QuerySingle<long>(
            "INSERT INTO care (plant_id, done_on, what, note, recorded_utc) VALUES (@plantId, @day, @word, @note, @now) RETURNING id",
            new { plantId, day = UtcText.Of(doneOn), word = CareWord(what), note, now = Now() }, transaction));
        return new CareEntry(id, plantId, doneOn, what, note);
    }

    /// <summary>Care entries of a plant, oldest first.</summary>
    public IReadOnlyList<CareEntry> CareOfPlant(long plantId) => Read(connection => connection.Query<CareRow>(
        "SELECT id AS Id, plant_id AS PlantId, done_on AS DoneOn, what AS What, note AS Note FROM care WHERE plant_id = @plantId ORDER BY done_on, id",
        new { plantId }).Select(row => row.ToCare()).ToList());

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
        public long Id { get; init; }

        public long PlantId { get; init; }

        public string DoneOn { get; init; } = "";

        public string What { get; init; } = "";

        public string? Note { get; init; }

        public CareEntry ToCare() => new(Id, PlantId, UtcText.Date(DoneOn), Enum.Parse<CareKind>(What, ignoreCase: true), Note);
    }
}
