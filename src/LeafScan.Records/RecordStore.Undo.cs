using System.Globalization;
using Dapper;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    private const string HealthyField = "healthy";

    // Fields that are a column of their table; the others have a rule of their own below.
    internal static readonly IReadOnlySet<(string Table, string Field)> PlainFields = new HashSet<(string Table, string Field)>
    {
        ("plant", "name"), ("plant", "species"), ("plant", "cultivar"), ("plant", "row_name"), ("plant", "position"), ("plant", "mite_season"),
        ("plant", "light"), ("plant", "date_in"), ("plant", "damage_at_delivery"), ("plant", "is_check"), ("plant", HealthyField),
        ("note_text", "words"), ("client", "country"), (ThresholdTable, "value"), (ThresholdTable, "region"), (ThresholdTable, "source"),
        ("photo", "plant_by"), ("photo", "leaf_age"), ("photo", "leaf_tag"),
        ("care", "done_on"), ("care", "what"), ("care", "note"), ("care", "done_at"), ("care", "active"), ("care", "mode_group"), ("care", "label_number"), ("care", "target"),
        ("care", "conditions"),
        ("tap", "tapped_on"), ("tap", "strikes"), ("tap", "sheet_width_mm"), ("tap", "sheet_height_mm"), ("tap", "branches"), ("tap", "hours_since_wet"), ("tap", "mites_by_lens"),
        ("tap", "mites_by_photo"), ("tap", "predators"), ("tap", "note"),
    };

    /// <summary>
    /// Takes back the last change by hand that still stands; null when there is none. Asked again it takes back the one before.
    /// The edit stays on record, marked as undone. What a late tag moved is no change by hand: it may come while somebody works at
    /// something else, and is taken back by <see cref="UndoChange"/> only.
    /// </summary>
    public UndoneChange? UndoLastEdit() => Undo(null);

    /// <summary>Takes back one change by its number, whenever it was made; null when it does not stand.</summary>
    /// <param name="changeId">Its number, as <see cref="TagMove.ChangeId"/> has it.</param>
    /// <exception cref="RecordException">What it changed was changed again since.</exception>
    public UndoneChange? UndoChange(long changeId) => Undo(changeId);

    private UndoneChange? Undo(long? changeId) => Write(transaction =>
    {
        SqliteConnection connection = transaction.Connection!;
        List<UndoRow> edits = [.. connection.Query<UndoRow>(
            """
            SELECT id AS Id, table_name AS TableName, row_id AS RowId, field AS Field, old_value AS OldValue, new_value AS NewValue, reason AS Reason, edited_utc AS EditedUtc
            FROM edit WHERE undone_utc IS NULL AND change_id = coalesce(@changeId, (SELECT max(change_id) FROM edit WHERE undone_utc IS NULL AND reason NOT LIKE @tag)) ORDER BY id
            """,
            new { changeId, tag = TagMove.Reason + "%" }, transaction)];
        if (edits.Count == 0)
        {
            return null;
        }

        if (changeId is not null && edits.Any(edit => IsChangedSince(transaction, edit)))
        {
            throw new RecordException(
                RecordTrouble.WrongValue, "What this change did was changed again since.", "Nothing was changed.", "Take the later change back first, or set the value by hand.");
        }

        // A tap must have a count at every step: what comes back goes in before what it took the place of goes out.
        foreach (UndoRow edit in edits.OrderBy(edit => edit.TableName == "tap" && edit.OldValue is null))
        {
            PutBack(transaction, edit);
        }

        connection.Execute("UPDATE edit SET undone_utc = @now WHERE id IN @ids", new { now = Now(), ids = edits.Select(edit => edit.Id) }, transaction);
        return new UndoneChange(
            [.. edits.Where(IsWorthSaying).Select(edit => $"{NameOf(connection, edit, transaction)}: {FieldWords(edit.Field)} is {Shown(edit.Field, edit.OldValue)} again, not {Shown(edit.Field, edit.NewValue)}")],
            edits[0].Reason, UtcText.Time(edits[0].EditedUtc))
        {
            PhotoIds = [.. edits.Where(edit => edit.TableName == "photo").Select(edit => edit.RowId).Distinct()],
        };
    });

    private static bool IsChangedSince(SqliteTransaction transaction, UndoRow edit) => transaction.Connection!.ExecuteScalar<bool>(
        "SELECT EXISTS (SELECT 1 FROM edit WHERE table_name = @TableName AND row_id = @RowId AND field = @Field AND id > @Id AND undone_utc IS NULL)", edit, transaction);

    private void PutBack(SqliteTransaction transaction, UndoRow edit)
    {
        SqliteConnection connection = transaction.Connection!;
        if (PlainFields.Contains((edit.TableName, edit.Field)))
        {
            connection.Execute($"UPDATE {edit.TableName} SET {edit.Field} = @OldValue WHERE id = @RowId", edit, transaction);
        }
        else if (edit is { TableName: "photo", Field: "plant" })
        {
            PutPlant(transaction, edit.RowId, edit.OldValue, PlantSource.ByHand);
        }
        else if (edit is { TableName: "plant", Field: "block" })
        {
            long placeId = connection.QuerySingle<long>("SELECT place_id FROM plant WHERE id = @RowId", edit, transaction);
            connection.Execute("UPDATE plant SET block_id = @block WHERE id = @RowId", new { edit.RowId, block = BlockOf(transaction, placeId, edit.OldValue) }, transaction);
        }
        else if (edit is { TableName: "place", Field: "client" })
        {
            SetClient(transaction, edit.RowId, edit.OldValue);
        }
        else if (edit.Field == BinField && edit.TableName is "photo" or "tap" or "care")
        {
            SetBin(transaction, edit.TableName, edit.RowId, edit.OldValue == "yes");
        }
        else if (edit.TableName == "weather" && WeatherField(edit.Field) is { } weather)
        {
            PutWeather(transaction, edit.RowId, weather.Day, weather.Column, edit.OldValue, null, null);
        }
        else if (edit.TableName == "photo" && LeafNoteField(edit.Field) is { } leaf)
        {
            PutLeafNote(transaction, edit.RowId, leaf.Ordinal, leaf.Column, edit.OldValue);
        }
        else if (edit.TableName == "photo" && CorrectionOfField(edit.Field) is { } correctionId)
        {
            connection.Execute("UPDATE correction SET taken_back_utc = @now, is_settled = 0 WHERE id = @correctionId", new { correctionId, now = Now() }, transaction);
        }
        else if (edit.TableName == "tap_sheet" && SpeckOfField(edit.Field) is { } speckId)
        {
            connection.Execute("UPDATE tap_correction SET taken_back_utc = @now WHERE id = @speckId", new { speckId, now = Now() }, transaction);
        }
        else
        {
            throw new RecordException(
                RecordTrouble.WrongValue, $"The last change ({edit.TableName}, {edit.Field}) is of a kind that cannot be undone.", "Nothing was changed.", "Set the value by hand.");
        }
    }

    private static string NameOf(SqliteConnection connection, UndoRow edit, SqliteTransaction transaction) => connection.QuerySingleOrDefault<string>(
        edit.TableName switch
        {
            "plant" => "SELECT 'plant ' || code FROM plant WHERE id = @RowId",
            "photo" => "SELECT 'photo ' || file_name FROM photo WHERE id = @RowId",
            "place" => "SELECT 'place ' || name FROM place WHERE id = @RowId",
            "weather" => "SELECT 'weather of ' || name FROM place WHERE id = @RowId",
            "client" => "SELECT 'client ' || name FROM client WHERE id = @RowId",
            "note_text" => "SELECT 'note, ' || block || ' of ' || coalesce(plant.code, place.name) FROM note_text LEFT JOIN plant ON plant.id = plant_id LEFT JOIN place ON place.id = note_text.place_id WHERE note_text.id = @RowId",
            ThresholdTable => "SELECT 'threshold ' || measure || coalesce(' for ' || plants, '') || coalesce(' of ' || client, '') FROM own_threshold WHERE id = @RowId",
            "tap_sheet" => "SELECT 'tap sheet of ' || coalesce((SELECT code || ' on ' || tapped_on FROM tap JOIN plant ON plant.id = plant_id WHERE sheet_id = @RowId), 'no plant yet')",
            "tap" => "SELECT 'tap of ' || code || ' on ' || tapped_on FROM tap JOIN plant ON plant.id = plant_id WHERE tap.id = @RowId",
            _ => "SELECT what || ' of ' || code || ' on ' || done_on FROM care JOIN plant ON plant.id = plant_id WHERE care.id = @RowId",
        },
        edit, transaction) ?? edit.TableName;

    // What only follows from another field of the change, or was nothing before, would read as noise.
    private static bool IsWorthSaying(UndoRow edit) => edit.Field != "plant_by" && !(edit.TableName == ThresholdTable && edit.Field != "value" && string.IsNullOrEmpty(edit.OldValue));

    // Of a colour people know the photo.
    private static string Shown(string field, string? value) => value is null ? "empty" : $"“{(field == HealthyField ? HealthyOnRecord.Read(value)?.File : null) ?? value}”";

    private static string FieldWords(string field) => field switch
    {
        BinField => "in the bin",
        "words" => "the text",
        "mites_by_photo" => "mites on the photos",
        "mites_by_lens" => "mites under the lens",
        "tapped_on" or "done_on" => "the day",
        "done_at" => "the time",
        "what" => "what was done",
        "active" => "active ingredient",
        "mode_group" => "mode of action",
        "label_number" => "label number",
        "target" => "what it was against",
        "sheet_width_mm" => "width of the sheet, mm",
        "sheet_height_mm" => "height of the sheet, mm",
        "hours_since_wet" => "hours since wet",
        _ when SpeckOfField(field) is not null => "what was said of a speck",
        "row_name" => "row",
        "mite_season" => "mite calendar",
        "date_in" => "date in",
        "damage_at_delivery" => "damage at delivery",
        "is_check" => "check plant",
        HealthyField => "healthy photo",
        "leaf_age" => "leaf age",
        "leaf_tag" => "leaf label",
        _ when WeatherField(field) is { } weather => $"{(weather.Column == "low_c" ? "lowest" : weather.Column == "high_c" ? "highest" : "source")} of {weather.Day}",
        _ when CorrectionOfField(field) is not null => "what was said of a leaf",
        _ => LeafNoteField(field) is { } leaf
            ? string.Create(CultureInfo.InvariantCulture, $"{(leaf.Column == "age" ? "age" : "label")} of leaf {leaf.Ordinal + 1}")
            : field,
    };

    private sealed class UndoRow
    {
        public long Id { get; init; }

        public string TableName { get; init; } = "";

        public long RowId { get; init; }

        public string Field { get; init; } = "";

        public string? OldValue { get; init; }

        public string? NewValue { get; init; }

        public string Reason { get; init; } = "";

        public string EditedUtc { get; init; } = "";
    }
}
