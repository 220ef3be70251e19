using System.Globalization;
using Dapper;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    private const string SpeckField = "speck";

    /// <summary>Keeps a reading of two photos of a tap sheet. The same reading of the same photos twice is one.</summary>
    /// <param name="firstSha256">Fingerprint of the first photo.</param>
    /// <param name="secondSha256">Fingerprint of the second.</param>
    /// <param name="toolVersion">Version of the tool.</param>
    /// <param name="reading">The reading as JSON.</param>
    public TapSheetOnRecord AddTapSheet(string firstSha256, string secondSha256, string toolVersion, string reading) => Write(transaction =>
    {
        var row = new { firstSha256, secondSha256, toolVersion, reading, now = Now() };
        SqliteConnection connection = transaction.Connection!;
        long id = connection.QueryFirstOrDefault<long?>(
            "SELECT id FROM tap_sheet WHERE first_sha256 = @firstSha256 AND second_sha256 = @secondSha256 AND tool_version = @toolVersion AND reading = @reading", row, transaction)
            ?? connection.QuerySingle<long>(
            "INSERT INTO tap_sheet (first_sha256, second_sha256, tool_version, reading, read_utc) VALUES (@firstSha256, @secondSha256, @toolVersion, @reading, @now) RETURNING id", row, transaction);
        return connection.QuerySingle<SheetRow>($"{SheetRow.Select} WHERE id = @id", new { id }, transaction).ToSheet();
    });

    /// <summary>The reading of a tap sheet with this number; null when there is none.</summary>
    public TapSheetOnRecord? FindTapSheet(long id) => Read(connection => connection.QuerySingleOrDefault<SheetRow>($"{SheetRow.Select} WHERE id = @id", new { id })?.ToSheet());

    /// <summary>Readings of two photos, newest first.</summary>
    /// <param name="firstSha256">Fingerprint of the first photo.</param>
    /// <param name="secondSha256">Fingerprint of the second.</param>
    public IReadOnlyList<TapSheetOnRecord> TapSheetsOf(string firstSha256, string secondSha256) => Read(connection => connection.Query<SheetRow>(
        $"{SheetRow.Select} WHERE first_sha256 = @firstSha256 AND second_sha256 = @secondSha256 ORDER BY id DESC", new { firstSha256, secondSha256 }).Select(row => row.ToSheet()).ToList());

    /// <summary>What was said of the two photos of a sheet, whichever reading of them it was said of; oldest first, with what was taken back.</summary>
    /// <param name="sheetId">A reading of them.</param>
    public IReadOnlyList<TapCorrection> TapCorrections(long sheetId) => Read(connection => CorrectionsOfSheet(connection, sheetId, null));

    /// <summary>The plant and the tap that a sheet was kept with; null when it was not kept with one, or that lies in the bin.</summary>
    /// <param name="sheetId">A reading of its photos.</param>
    public (long TapId, long PlantId)? TapOfSheet(long sheetId) => Read(connection => connection.Query<(long TapId, long PlantId)?>(
        "SELECT id, plant_id FROM tap WHERE sheet_id = @sheetId AND deleted_utc IS NULL ORDER BY id DESC LIMIT 1", new { sheetId }).FirstOrDefault());

    /// <summary>Keeps what a person says of a speck; can be undone. Taps that were kept with this reading get the new count in the same step.</summary>
    /// <param name="sheetId">Reading.</param>
    /// <param name="x">Place in the first photo, pixels to the right.</param>
    /// <param name="y">Pixels down.</param>
    /// <param name="word">What it is.</param>
    /// <param name="who">Who says it; null for not told.</param>
    /// <param name="reason">Why, for the edits.</param>
    /// <param name="count">Counts the mites from all that was said.</param>
    public void AddTapCorrection(long sheetId, double x, double y, TapWord word, string? who, string reason, Func<IReadOnlyList<TapCorrection>, int?> count) => Write(transaction =>
    {
        SqliteConnection connection = transaction.Connection!;
        string said = WordOf(word);
        long id = connection.QuerySingle<long>(
            "INSERT INTO tap_correction (sheet_id, x, y, said, who, made_utc) VALUES (@sheetId, @x, @y, @said, @who, @now) RETURNING id",
            new { sheetId, x, y, said, who = CleanOrNull(who, "a person's name"), now = Now() }, transaction);
        ChangeNote note = new(transaction, reason, Now());
        note.Keep("tap_sheet", sheetId, string.Create(CultureInfo.InvariantCulture, $"{SpeckField} {id}"), null, said);
        int? mites = count(CorrectionsOfSheet(connection, sheetId, transaction));
        foreach ((long tap, long? old) in connection.Query<(long, long?)>("SELECT id, mites_by_photo FROM tap WHERE sheet_id = @sheetId", new { sheetId }, transaction).ToList())
        {
            if (mites is { } now && now != old)
            {
                connection.Execute("UPDATE tap SET mites_by_photo = @now WHERE id = @tap", new { now, tap }, transaction);
                note.Keep("tap", tap, "mites_by_photo", old?.ToString(CultureInfo.InvariantCulture), now.ToString(CultureInfo.InvariantCulture));
            }
        }

        return 0;
    });

    private static string WordOf(TapWord word) => word switch
    {
        TapWord.Mite => "mite",
        TapWord.Predator => "predator",
        _ => "notMite",
    };

    private static List<TapCorrection> CorrectionsOfSheet(SqliteConnection connection, long sheetId, SqliteTransaction? transaction) => connection.Query<SpeckRow>(
        """
        SELECT said.id AS Id, said.x AS X, said.y AS Y, said.said AS Said, said.who AS Who, said.made_utc AS MadeUtc, said.taken_back_utc AS TakenBackUtc
        FROM tap_correction AS said JOIN tap_sheet AS other ON other.id = said.sheet_id
        JOIN tap_sheet AS own ON own.first_sha256 = other.first_sha256 AND own.second_sha256 = other.second_sha256
        WHERE own.id = @sheetId ORDER BY said.id
        """,
        new { sheetId }, transaction).Select(row => row.ToCorrection()).ToList();

    private static long? SpeckOfField(string field)
        => field.Split(' ') is [SpeckField, string number] && long.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out long id) ? id : null;

    private sealed class SheetRow
    {
        public const string Select =
            "SELECT id AS Id, first_sha256 AS FirstSha256, second_sha256 AS SecondSha256, tool_version AS ToolVersion, reading AS Reading, read_utc AS ReadUtc FROM tap_sheet";

        public long Id { get; init; }

        public string FirstSha256 { get; init; } = "";

        public string SecondSha256 { get; init; } = "";

        public string ToolVersion { get; init; } = "";

        public string Reading { get; init; } = "";

        public string ReadUtc { get; init; } = "";

        public TapSheetOnRecord ToSheet() => new(Id, FirstSha256, SecondSha256, ToolVersion, Reading, UtcText.Time(ReadUtc));
    }

    private sealed class SpeckRow
    {
        public long Id { get; init; }

        public double X { get; init; }

        public double Y { get; init; }

        public string Said { get; init; } = "";

        public string? Who { get; init; }

        public string MadeUtc { get; init; } = "";

        public string? TakenBackUtc { get; init; }

        public TapCorrection ToCorrection() => new(Id, X, Y, Enum.Parse<TapWord>(Said, ignoreCase: true), Who, UtcText.Time(MadeUtc), UtcText.TimeOrNull(TakenBackUtc));
    }
}
