using System.Globalization;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using CsvHelper;
using CsvHelper.Configuration;
using LeafScan.Cli.Tests.Support;
using LeafScan.Records;
using Microsoft.Data.Sqlite;

namespace LeafScan.Cli.Tests;

/// <summary>What leaves the record and comes back.</summary>
public sealed class ExportTests : IDisposable
{
    private readonly TestDoor _door = new();

    [Fact]
    public async Task Export_wipe_and_import_give_the_identical_record_with_texts_sender_and_thresholds()
    {
        Begin("סנדיאן = \"oak\", 1");
        await DoneAsync("care", "add", "EU-1", "--what", "rinse", "--date", "2026-06-20");
        await DoneAsync("tap", "add", "EU-1", "--mites", "0", "--date", "2026-07-02");
        await DoneAsync("note", "text", "EU-1", "--part", "greeting", "--say", "Dear Ms Lund,\nshalom");
        await DoneAsync("note", "text", "EU-1", "--part", "next", "--say", "I come again.", "--walk", "2026-07-02");
        await DoneAsync("note", "sender", "--by", "Jo Brandt", "--contact", "jo@brandt.example", "--country", "DE", "--heading", "title=Bericht");
        await DoneAsync("thresholds", "set", "mites-per-tap", "5", "--species", "Euonymus alatus", "--source", "own records");
        await DoneAsync("photos", "remove", "EU-1-0.jpg", "--reason", "a thumb");
        string before = Dump(_door.DataFolder);
        string note = await Note(_door.DataFolder);
        Ran first = await _door.RunAsync("export", "--out", _door.At("record.zip"), "--json");
        Assert.True(first.Code == ExitCode.Done, first.ToString());

        Directory.Delete(_door.DataFolder, recursive: true);
        Ran read = await _door.RunAsync("import", _door.At("record.zip"), "--json");
        Assert.True(read.Code == ExitCode.Done, read.ToString());
        Assert.Equal(before, Dump(_door.DataFolder));
        Assert.Equal(note, await Note(_door.DataFolder));
        Assert.Contains("Jo Brandt", note, StringComparison.Ordinal);
        Assert.Contains("Dear Ms Lund,", note, StringComparison.Ordinal);

        Ran again = await _door.RunAsync("export", "--out", _door.At("again.zip"), "--json");
        Assert.Equal(first.Json.GetProperty("contentSha256").GetString(), read.Json.GetProperty("contentSha256").GetString());
        Assert.Equal(first.Json.GetProperty("contentSha256").GetString(), again.Json.GetProperty("contentSha256").GetString());
        Assert.Equal(await File.ReadAllBytesAsync(_door.At("record.zip")), await File.ReadAllBytesAsync(_door.At("again.zip")));
    }

    [Fact]
    public async Task Settings_of_another_kind_in_the_folder_stop_the_import_and_settings_that_were_changed_on_the_way_too()
    {
        Begin("oak");
        await DoneAsync("note", "sender", "--by", "Jo Brandt");
        await DoneAsync("export", "--out", _door.At("record.zip"));
        string other = _door.At("other");
        await DoneAsync("print", "measured", "98.5", "--data-dir", other);
        Ran ran = await _door.RunAsync("import", _door.At("record.zip"), "--data-dir", other);
        Assert.NotEqual(ExitCode.Done, ran.Code);
        Assert.Contains("settings.json of its own", ran.Err, StringComparison.Ordinal);
        using (RecordStore store = RecordStore.Open(other, TimeProvider.System))
        {
            Assert.Empty(store.Plants());
        }

        using (ZipArchive zip = ZipFile.Open(_door.At("record.zip"), ZipArchiveMode.Update))
        {
            zip.GetEntry("settings.json")!.Delete();
            using Stream stream = zip.CreateEntry("settings.json").Open();
            stream.Write("{}"u8);
        }

        Ran changed = await _door.RunAsync("import", _door.At("record.zip"), "--data-dir", _door.At("third"));
        Assert.NotEqual(ExitCode.Done, changed.Code);
        Assert.False(File.Exists(_door.At("third/settings.json")));
    }

    // CsvHelper reads RFC 4180 and knows nothing of how the table was written.
    [Theory]
    [InlineData("=HYPERLINK(\"http://evil.example\")")]
    [InlineData("+1+2")]
    [InlineData("-2+3")]
    [InlineData("@SUM(A1)")]
    [InlineData("  =1+1")]
    [InlineData("＝1+1")]
    public async Task A_name_that_a_spreadsheet_would_run_is_only_text_and_numbers_stay_numbers(string name)
    {
        Begin(name);
        await DoneAsync("plants", "set", "EU-1", "--block", "South bed, \"old\"", "--row", "-3");
        foreach (string[] words in (string[][])[["export", "readings"], ["export", "series"], ["export", "block", "South bed, \"old\""]])
        {
            await DoneAsync([.. words, "--out", _door.At("table.csv")]);
            string text = await File.ReadAllTextAsync(_door.At("table.csv"));
            Assert.DoesNotMatch("[^\r]\n", text);
            using CsvReader csv = new(new StringReader(text), new CsvConfiguration(CultureInfo.InvariantCulture) { NewLine = "\r\n", Mode = CsvMode.RFC4180, DetectColumnCountChanges = true });
            Assert.True(csv.Read() && csv.ReadHeader());
            int rows = 0;
            while (csv.Read())
            {
                rows++;
                Assert.Equal("'" + name.Trim(), csv.GetField("name"));
                Assert.Equal("'-3", csv.GetField("row"));
                Assert.Equal("South bed, \"old\"", csv.GetField("block"));
                double damage = csv.GetField<double>("damage");
                Assert.InRange(damage, 0.03, 0.13);
                Assert.Equal(1 - damage, csv.GetField<double>("sound"), 5);
            }

            Assert.InRange(rows, 1, 2);
        }
    }

    [Fact]
    public async Task CSV_and_JSON_hold_the_same_rows_and_a_day_range_cuts_both()
    {
        Begin("oak");
        await DoneAsync("plants", "leaf", "EU-1-1.jpg", "--age", "old", "--label", "3");
        await DoneAsync("export", "readings", "--from", "2026-07-01", "--out", _door.At("r.json"));
        await DoneAsync("export", "readings", "EU-1", "--to", "2026-06-30", "--out", _door.At("r.csv"));
        JsonElement leaf = JsonDocument.Parse(await File.ReadAllTextAsync(_door.At("r.json"))).RootElement.GetProperty("leaves").EnumerateArray().Single();
        Assert.Equal(("2026-07-02", 0.12, "miteStippling"), (leaf.GetProperty("date").GetString(), leaf.GetProperty("damage").GetDouble(), leaf.GetProperty("likeliestCause").GetString()));
        Assert.Equal(("old", "3"), (leaf.GetProperty("leafAge").GetString(), leaf.GetProperty("leafLabel").GetString()));
        string[] lines = (await File.ReadAllTextAsync(_door.At("r.csv"))).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(2, lines.Length);
        Assert.Equal(lines[0], string.Join(',', leaf.EnumerateObject().Select(property => property.Name)));
        Assert.Contains("2026-06-03", lines[1], StringComparison.Ordinal);
    }

    public void Dispose() => _door.Dispose();

    private void Begin(string name)
    {
        using RecordStore store = RecordStore.Open(_door.DataFolder, TimeProvider.System);
        SomeRecord.Photo(store, "EU-1", new DateOnly(2026, 6, 3), 0.04);
        SomeRecord.Photo(store, "EU-1", new DateOnly(2026, 7, 2), 0.12, 1);
        Plant plant = store.Plants().Single();
        store.EditPlant(plant.Id, old => old with { Name = name }, "test");
    }

    private async Task DoneAsync(params string[] words)
    {
        Ran ran = await _door.RunAsync(words);
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
    }

    private async Task<string> Note(string folder)
    {
        await DoneAsync("note", "EU-1", "--date", "2026-07-10", "--out", _door.At("note.md"), "--data-dir", folder);
        return await File.ReadAllTextAsync(_door.At("note.md"));
    }

    // Every row of every table by plain SQL, sorted, with the files beside it: none of the code that exports takes part.
    private static string Dump(string folder)
    {
        StringBuilder all = new();
        using (SqliteConnection connection = new($"Data Source={Directory.GetFiles(folder, "*.db").Single()};Mode=ReadOnly;Pooling=False"))
        {
            connection.Open();
            // Counters of changes are no part of the record: they only tell this program what to judge anew.
            foreach (string table in Rows(connection, "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name NOT IN ('last_change', 'plant_change', 'weather_change') ORDER BY name"))
            {
                all.Append(table).Append('\n').AppendJoin('\n', Rows(connection, $"SELECT * FROM \"{table}\"").Order(StringComparer.Ordinal)).Append('\n');
            }
        }

        foreach (string file in Directory.GetFiles(folder, "*.json").Order(StringComparer.Ordinal))
        {
            all.Append(Path.GetFileName(file)).Append('\n').Append(File.ReadAllText(file));
        }

        Assert.Contains("Jo Brandt", all.ToString(), StringComparison.Ordinal);
        Assert.Contains("shalom", all.ToString(), StringComparison.Ordinal);
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(all.ToString())));
    }

    private static List<string> Rows(SqliteConnection connection, string sql)
    {
        using SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // Names of tables, read from the file itself.
        command.CommandText = sql;
#pragma warning restore CA2100
        using SqliteDataReader reader = command.ExecuteReader();
        List<string> rows = [];
        while (reader.Read())
        {
            rows.Add(string.Join('|', Enumerable.Range(0, reader.FieldCount).Select(i => reader.IsDBNull(i) ? "NULL" : Convert.ToString(reader.GetValue(i), CultureInfo.InvariantCulture))));
        }

        return rows;
    }
}
