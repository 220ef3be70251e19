using System.Globalization;
using Dapper;
using LeafScan.Photos;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records.Sense;

/// <summary>Names by which things are found, times as a camera writes them, lists of flags and texts of notes.</summary>
internal static class TextSense
{
    private static readonly (string Table, string Name, string Key)[] Names =
        [("place", "name", "name_key"), ("block", "name", "name_key"), ("client", "name", "name_key"), ("plant", "code", "code_key")];

    /// <summary>The faults in words.</summary>
    public static IEnumerable<string> Faults(SqliteTransaction transaction)
    {
        SqliteConnection connection = transaction.Connection!;
        foreach ((string table, string name, string key) in Names)
        {
            foreach ((long id, string text, string kept) in connection.Query<(long, string, string)>($"SELECT id, {name}, {key} FROM {table}", transaction: transaction))
            {
                if (NameText.Clean(text) is not { } clean || NameText.Key(clean) != kept)
                {
                    yield return SenseCheck.Fault(table, Number(id), "has a name that cannot be kept, or is found by another one");
                }
            }
        }

        foreach ((long id, string taken) in connection.Query<(long, string)>("SELECT id, taken FROM photo WHERE taken IS NOT NULL", buffered: false, transaction: transaction))
        {
            if (CaptureTime.Parse(taken) is null)
            {
                yield return SenseCheck.Fault("photo", Number(id), "was taken at a time that is none");
            }
        }

        foreach (string table in (string[])["reading", "leaf"])
        {
            foreach (string flags in connection.Query<string>($"SELECT DISTINCT flags FROM {table}", transaction: transaction))
            {
                if (!ShapeSense.IsReadable(() => ShapeText.ReadNames(flags).All(flag => flag is { Length: > 0 })))
                {
                    yield return SenseCheck.Fault(table, Number(connection.ExecuteScalar<long>($"SELECT id FROM {table} WHERE flags = @flags", new { flags }, transaction)), "has flags that are no list of names");
                }
            }
        }

        foreach ((long id, string words) in connection.Query<(long, string)>("SELECT id, words FROM note_text WHERE words IS NOT NULL", transaction: transaction))
        {
            if (words.Length > NoteText.Longest || words.Any(letter => char.IsControl(letter) && letter != '\n'))
            {
                yield return SenseCheck.Fault("note text", Number(id), "is too long or holds signs that cannot be printed");
            }
        }
    }

    private static string Number(long id) => id.ToString(CultureInfo.InvariantCulture);
}
