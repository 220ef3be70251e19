using System.Text.Json;
using Dapper;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records.Exchange;

/// <summary>One table as it travels: its columns in the order of the layout, its rows in the order of the primary key, one JSON array a line.</summary>
/// <param name="Name">Name.</param>
/// <param name="Columns">Columns.</param>
/// <param name="Key">Columns of the primary key.</param>
internal sealed record RecordTable(string Name, IReadOnlyList<string> Columns, IReadOnlyList<string> Key)
{
    // Sums that are made anew from the photos, photos on their way in, whose files lie on this machine, and the numbers of its changes.
    private static readonly string[] Left = ["plant_day", "upload", "upload_event", "last_change", "plant_change", "weather_change"];

    /// <summary>Every table that travels, by name.</summary>
    public static IReadOnlyList<RecordTable> All(SqliteConnection connection, SqliteTransaction transaction)
    {
        IEnumerable<string> names = connection.Query<string>(
            "SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\' AND name NOT IN @Left ORDER BY name", new { Left }, transaction);
        return [.. names.Select(name =>
        {
            var columns = connection.Query<(string Name, long Key)>("SELECT name, pk FROM pragma_table_info(@name) ORDER BY cid", new { name }, transaction).ToList();
            return new RecordTable(name, [.. columns.Select(column => column.Name)], [.. columns.Where(column => column.Key > 0).OrderBy(column => column.Key).Select(column => column.Name)]);
        }).ToList()];
    }

    /// <summary>Writes every row.</summary>
    /// <returns>How many.</returns>
    public long Write(SqliteConnection connection, SqliteTransaction transaction, Stream target)
    {
        using SqliteCommand command = connection.CreateCommand();
        command.Transaction = transaction;
#pragma warning disable CA2100 // The names come from the layout, not from outside.
        command.CommandText = $"SELECT {string.Join(", ", Columns.Select(Quoted))} FROM {Quoted(Name)} ORDER BY {string.Join(", ", Key.Select(Quoted))}";
#pragma warning restore CA2100
        using SqliteDataReader reader = command.ExecuteReader();
        using var writer = new Utf8JsonWriter(target, new JsonWriterOptions { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
        long rows = 0;
        while (reader.Read())
        {
            writer.WriteStartArray();
            for (int i = 0; i < Columns.Count; i++)
            {
                WriteValue(writer, reader.GetValue(i));
            }

            writer.WriteEndArray();
            writer.Flush();
            writer.Reset();
            target.WriteByte((byte)'\n');
            rows++;
        }

        return rows;
    }

    /// <summary>Puts rows into the table, which is empty.</summary>
    /// <returns>How many.</returns>
    /// <exception cref="JsonException">A line is no row of this table.</exception>
    /// <exception cref="InvalidDataException">A line is longer than any row.</exception>
    public long Read(SqliteConnection connection, SqliteTransaction transaction, TextReader source)
    {
        using SqliteCommand command = connection.CreateCommand();
        command.Transaction = transaction;
#pragma warning disable CA2100 // The names come from the layout, not from outside.
        command.CommandText = $"INSERT INTO {Quoted(Name)} ({string.Join(", ", Columns.Select(Quoted))}) VALUES ({string.Join(", ", Columns.Select((_, i) => FormattableString.Invariant($"$c{i}")))})";
#pragma warning restore CA2100
        SqliteParameter[] parameters = [.. Columns.Select((_, i) => command.Parameters.AddWithValue(FormattableString.Invariant($"$c{i}"), DBNull.Value))];
        long rows = 0;
        foreach (string line in LimitedReading.Lines(source))
        {
            using JsonDocument document = JsonDocument.Parse(line);
            if (document.RootElement.ValueKind != JsonValueKind.Array || document.RootElement.GetArrayLength() != Columns.Count)
            {
                throw new JsonException($"A row of {Name} has another number of columns.");
            }

            int i = 0;
            foreach (JsonElement value in document.RootElement.EnumerateArray())
            {
                parameters[i++].Value = ValueOf(value);
            }

            command.ExecuteNonQuery();
            rows++;
        }

        return rows;
    }

    private static void WriteValue(Utf8JsonWriter writer, object value)
    {
        switch (value)
        {
            case long whole:
                writer.WriteNumberValue(whole);
                break;
            case double number:
                writer.WriteNumberValue(number);
                break;
            case string text:
                writer.WriteStringValue(text);
                break;
            default:
                writer.WriteNullValue();
                break;
        }
    }

    private static object ValueOf(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Number => value.TryGetInt64(out long whole) ? whole
            : value.GetDouble() is var number && double.IsFinite(number) ? number : throw new JsonException("A number is beyond all numbers."),
        JsonValueKind.String => value.GetString()!,
        JsonValueKind.Null => DBNull.Value,
        _ => throw new JsonException("A value is neither number, text nor null."),
    };

    private static string Quoted(string name) => $"\"{name}\"";
}
