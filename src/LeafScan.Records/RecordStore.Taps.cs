using System.Globalization;
using System.Text.Json;
using Dapper;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    /// <summary>Keeps a tap.</summary>
    /// <exception cref="RecordException">There is no count, or a number is out of range.</exception>
    /// <param name="tap">The tap.</param>
    /// <param name="undoable">Why, when undo is to take the tap into the bin; null leaves undo to what was changed before.</param>
    public TapOnRecord AddTap(NewTap tap, string? undoable = null)
    {
        Check(tap);
        long id = Write(transaction => Undoable(transaction, "tap", undoable, transaction.Connection!.QuerySingle<long>(
            """
            INSERT INTO tap (plant_id, tapped_on, strikes, sheet_width_mm, sheet_height_mm, branches, hours_since_wet, mites_by_lens, mites_by_photo, predators, sheet_id, note, recorded_utc)
            VALUES (@PlantId, @day, @Strikes, @SheetWidthMm, @SheetHeightMm, @Branches, @HoursSinceWet, @MitesByLens, @MitesByPhoto, @Predators, @SheetId, @Note, @now) RETURNING id
            """,
            new
            {
                tap.PlantId,
                day = UtcText.Of(tap.Day),
                tap.Strikes,
                tap.SheetWidthMm,
                tap.SheetHeightMm,
                tap.Branches,
                tap.HoursSinceWet,
                tap.MitesByLens,
                tap.MitesByPhoto,
                tap.Predators,
                tap.SheetId,
                tap.Note,
                now = Now(),
            },
            transaction)));
        return new TapOnRecord(id, tap);
    }

    /// <summary>Changes a tap; each value that changes is kept among the edits and comes back with undo. Plant, sheet and number stay.</summary>
    /// <param name="id">Its number.</param>
    /// <param name="change">Gives the tap as it should be.</param>
    /// <param name="reason">Why, for the edits.</param>
    /// <returns>The tap as it is now; null when there is none of this number, or it lies in the bin.</returns>
    /// <exception cref="RecordException">There is no count left, or a number is out of range.</exception>
    public TapOnRecord? EditTap(long id, Func<NewTap, NewTap> change, string reason) => Write(transaction =>
    {
        SqliteConnection connection = transaction.Connection!;
        if (TapById(connection, id, transaction) is not { } old)
        {
            return null;
        }

        NewTap wanted = change(old.Tap);
        Check(wanted);
        connection.Execute(
            """
            UPDATE tap SET tapped_on = @tapped_on, strikes = @strikes, sheet_width_mm = @sheet_width_mm, sheet_height_mm = @sheet_height_mm, branches = @branches,
                hours_since_wet = @hours_since_wet, mites_by_lens = @mites_by_lens, mites_by_photo = @mites_by_photo, predators = @predators, note = @note WHERE id = @id
            """,
            Parameters(id, Fields(wanted)), transaction);
        KeepChanges(transaction, "tap", id, Fields(old.Tap), Fields(wanted), reason);
        return TapById(connection, id, transaction);
    });

    /// <summary>One tap; null when there is none of this number, or it lies in the bin.</summary>
    public TapOnRecord? FindTap(long id) => Read(connection => TapById(connection, id, null));

    /// <summary>Taps of a plant, oldest first; those in the bin are left out.</summary>
    public IReadOnlyList<TapOnRecord> TapsOfPlant(long plantId) => Read(connection => connection.Query<TapRow>(
        $"{TapRow.Select} WHERE plant_id = @plantId AND deleted_utc IS NULL ORDER BY tapped_on, id", new { plantId }).Select(row => row.ToTap()).ToList());

    /// <summary>Taps of several plants in one question, by plant, each oldest first; those in the bin are left out.</summary>
    /// <param name="plantIds">Plants.</param>
    public ILookup<long, TapOnRecord> TapsOfPlants(IEnumerable<long> plantIds) => Read(connection => connection.Query<TapRow>(
        $"{TapRow.Select} JOIN json_each(@ids) AS asked ON tap.plant_id = asked.value WHERE deleted_utc IS NULL ORDER BY tapped_on, tap.id", new { ids = JsonSerializer.Serialize(plantIds) })
        .Select(row => row.ToTap()).ToLookup(tap => tap.Tap.PlantId));

    private static TapOnRecord? TapById(SqliteConnection connection, long id, SqliteTransaction? transaction)
        => connection.QuerySingleOrDefault<TapRow>($"{TapRow.Select} WHERE id = @id AND deleted_utc IS NULL", new { id }, transaction)?.ToTap();

    private static (string Field, string? Value)[] Fields(NewTap tap) =>
    [
        ("tapped_on", UtcText.Of(tap.Day)), ("strikes", Text(tap.Strikes)), ("sheet_width_mm", Text(tap.SheetWidthMm)), ("sheet_height_mm", Text(tap.SheetHeightMm)),
        ("branches", Text(tap.Branches)), ("hours_since_wet", Text(tap.HoursSinceWet)), ("mites_by_lens", Text(tap.MitesByLens)), ("mites_by_photo", Text(tap.MitesByPhoto)),
        ("predators", Text(tap.Predators)), ("note", tap.Note),
    ];

    private static string? Text(double? value) => value?.ToString("R", CultureInfo.InvariantCulture);

    private static void Check(NewTap tap)
    {
        string? fault =
            tap.MitesByLens is null && tap.MitesByPhoto is null ? "A tap needs a count of mites; none is 0"
            : tap.MitesByLens < 0 || tap.MitesByPhoto < 0 || tap.Predators < 0 ? "A count lies below 0"
            : tap.Strikes < 1 || tap.Branches < 1 ? "Strikes and branches are counted from 1"
            : tap.HoursSinceWet is { } hours && !(hours is >= 0 and <= 100_000) ? "The hours since the plant was wet lie outside 0 to 100000"
            : tap.SheetWidthMm is { } width && !(width is > 0 and <= 10_000) ? "The sheet's width lies outside 0 to 10000 mm"
            : tap.SheetHeightMm is { } height && !(height is > 0 and <= 10_000) ? "The sheet's height lies outside 0 to 10000 mm"
            : null;
        if (fault is not null)
        {
            throw new RecordException(
                RecordTrouble.WrongValue, string.Create(CultureInfo.InvariantCulture, $"{fault}."), "Nothing was written.", "Give the number as it was counted, or leave it out.");
        }
    }

    private sealed class TapRow
    {
        public const string Select = """
            SELECT tap.id AS Id, plant_id AS PlantId, tapped_on AS TappedOn, strikes AS Strikes, sheet_width_mm AS SheetWidthMm, sheet_height_mm AS SheetHeightMm,
                branches AS Branches, hours_since_wet AS HoursSinceWet, mites_by_lens AS MitesByLens, mites_by_photo AS MitesByPhoto, predators AS Predators, sheet_id AS SheetId, note AS Note
            FROM tap
            """;

        public long Id { get; init; }

        public long PlantId { get; init; }

        public string TappedOn { get; init; } = "";

        public long? Strikes { get; init; }

        public double? SheetWidthMm { get; init; }

        public double? SheetHeightMm { get; init; }

        public long? Branches { get; init; }

        public double? HoursSinceWet { get; init; }

        public long? MitesByLens { get; init; }

        public long? MitesByPhoto { get; init; }

        public long? Predators { get; init; }

        public long? SheetId { get; init; }

        public string? Note { get; init; }

        public TapOnRecord ToTap() => new(Id, new NewTap
        {
            PlantId = PlantId,
            Day = UtcText.Date(TappedOn),
            Strikes = (int?)Strikes,
            SheetWidthMm = SheetWidthMm,
            SheetHeightMm = SheetHeightMm,
            Branches = (int?)Branches,
            HoursSinceWet = HoursSinceWet,
            MitesByLens = (int?)MitesByLens,
            MitesByPhoto = (int?)MitesByPhoto,
            Predators = (int?)Predators,
            SheetId = SheetId,
            Note = Note,
        });
    }
}
