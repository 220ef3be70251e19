using System.Globalization;
using System.Text.Json;
using System.Xml.Linq;
using CsvHelper;
using LeafScan.Cli.Tests.Support;
using LeafScan.Records;

namespace LeafScan.Cli.Tests;

public sealed class ScoreCommandTests : IDisposable
{
    private readonly TestDoor _door = new();

    [Fact]
    public async Task A_block_named_by_row_and_position_becomes_a_table_a_map_and_a_record()
    {
        Block("R1-P1.jpg", "R1-P2.jpg", "r02p01 leaf 1.jpg", "r02p01 leaf 2.jpg");
        Ran ran = await Score("--csv", _door.At("b.csv"), "--json", _door.At("b.json"), "--map", _door.At("b.svg"));
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        Assert.Contains("Block B: 3 plants, 4 leaves.", ran.Out, StringComparison.Ordinal);
        Assert.Contains("row 2", ran.Out, StringComparison.Ordinal);

        List<IDictionary<string, object>> rows = Csv(File.ReadAllText(_door.At("b.csv")));
        Assert.Equal(["R1-P1", "R1-P2", "R2-P1"], rows.Select(row => row["plant"]));
        Assert.Equal(["1", "1", "2"], rows.Select(row => row["row"]));
        Assert.Equal("2", rows[2]["leaves"]);

        JsonElement json = JsonDocument.Parse(File.ReadAllText(_door.At("b.json"))).RootElement;
        Assert.Equal("leafscan.score/1", json.GetProperty("schema").GetString());
        Assert.Equal(3, json.GetProperty("plantCount").GetInt32());

        using RecordStore store = RecordStore.Open(_door.DataFolder, TimeProvider.System);
        Assert.Equal([("B", "1", "1"), ("B", "1", "2"), ("B", "2", "1")], store.Plants().Select(plant => (plant.Facts.Block!, plant.Facts.Row!, plant.Facts.Position!)));
        Assert.Equal("score", store.Runs()[0].Command);
    }

    [Fact]
    public async Task The_map_is_sound_xml_with_the_number_of_every_plant_in_it()
    {
        Block("R1-P1.jpg", "R1-P2.jpg");
        SomePhoto.Leaf(_door.At("block/<odd> & \"code\"/leaf.jpg"), 9);
        Ran ran = await Score("--map", "-");
        XDocument svg = XDocument.Parse(ran.Out);
        string[] texts = [.. svg.Descendants(XName.Get("text", "http://www.w3.org/2000/svg")).Select(text => text.Value)];
        Assert.Contains("row 1", texts);
        Assert.Contains("<odd> &…", texts);
        JsonElement json = JsonDocument.Parse((await Score("--json", "-")).Out).RootElement;
        foreach (JsonElement plant in json.GetProperty("plants").EnumerateArray())
        {
            double percent = plant.GetProperty("figures").GetProperty("damage").GetDouble() * 100;
            Assert.Contains(percent.ToString(percent < 9.95 ? "0.0" : "0", CultureInfo.InvariantCulture), texts);
        }
    }

    [Fact]
    public async Task Scoring_again_measures_nothing_and_gives_the_same_files()
    {
        Block("R1-P1.jpg", "R1-P2.jpg", "R2-P1.jpg");
        await Score("--csv", _door.At("1.csv"), "--map", _door.At("1.svg"));
        Ran again = await Score("--csv", _door.At("2.csv"), "--map", _door.At("2.svg"), "--jobs", "2");
        Assert.Contains("0 new, 3 already here, 0 refused", again.Err, StringComparison.Ordinal);
        Assert.Equal(File.ReadAllText(_door.At("1.csv")), File.ReadAllText(_door.At("2.csv")));
        Assert.Equal(File.ReadAllText(_door.At("1.svg")), File.ReadAllText(_door.At("2.svg")));
    }

    [Fact]
    public async Task A_stop_finishes_the_photo_in_hand_and_the_next_run_goes_on_to_the_same_table()
    {
        string[] names = [.. Enumerable.Range(1, 12).Select(i => $"R1-P{i}.jpg")];
        Block(names);
        await Score("--csv", _door.At("whole.csv"), "--data-dir", _door.At("other"));
        Ran stopped = await _door.RunUntilAsync(
            () => PhotosOnRecord() >= 2, "score", _door.At("block"), "--block", "B", "--date", "2026-07-02", "--jobs", "1", "--csv", _door.At("b.csv"));
        Assert.True(stopped.Code == ExitCode.Stopped, stopped.ToString());
        Assert.False(File.Exists(_door.At("b.csv")));
        int safe = PhotosOnRecord();
        Assert.Contains($"Stopped: {safe} new", stopped.Err, StringComparison.Ordinal);
        Assert.Contains($"{12 - safe} left", stopped.Err, StringComparison.Ordinal);

        Ran rest = await Score("--csv", _door.At("b.csv"));
        Assert.Contains($"{12 - safe} new, {safe} already here", rest.Err, StringComparison.Ordinal);
        Assert.Equal(File.ReadAllText(_door.At("whole.csv")), File.ReadAllText(_door.At("b.csv")));
    }

    [Fact]
    public async Task One_bad_photo_is_one_line_and_its_plant_stays_in_the_table()
    {
        Block("R1-P1.jpg");
        SomePhoto.Text(_door.At("block/R1-P2.jpg"));
        Ran ran = await Score("--csv", "-");
        Assert.Equal(ExitCode.SomeRefused, ran.Code);
        Assert.Single(ran.Err.Split('\n'), line => line.StartsWith("Refused R1-P2.jpg", StringComparison.Ordinal));
        IDictionary<string, object> row = Csv(ran.Out)[1];
        Assert.Equal(("R1-P2", "0", "", "1"), (row["plant"], row["leaves"], row["damage"], row["photos_refused"]));
    }

    [Fact]
    public async Task A_plant_code_that_a_spreadsheet_would_run_is_written_as_text()
    {
        SomePhoto.Leaf(_door.At("block/=1+1, \"x\"/leaf.jpg"));
        Ran ran = await Score("--csv", "-");
        Assert.Contains("\"'=1+1, \"\"x\"\"\"", ran.Out, StringComparison.Ordinal);
        Assert.DoesNotContain(ran.Out.Split("\r\n"), line => line.Length > 0 && line.Split(',').Any(field => field.TrimStart('"').StartsWith('=')));
        Assert.All(ran.Out.Split("\r\n"), line => Assert.DoesNotContain('\n', line));
    }

    [Fact]
    public async Task A_dry_run_writes_nothing()
    {
        Block("R1-P1.jpg");
        Ran ran = await Score("--dry-run");
        Assert.Contains("Would add 1 new to block B", ran.Out, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_door.DataFolder));
    }

    [Fact]
    public async Task A_plant_that_stands_in_another_block_is_named_and_left_there()
    {
        Block("R1-P1.jpg");
        await Score();
        Ran ran = await _door.RunAsync("score", _door.At("block"), "--block", "C", "--date", "2026-07-02");
        Assert.Contains("In another block on record, and left there: R1-P1", ran.Err, StringComparison.Ordinal);
        using RecordStore store = RecordStore.Open(_door.DataFolder, TimeProvider.System);
        Assert.Equal("B", store.Plants()[0].Facts.Block);
    }

    private void Block(params string[] names)
    {
        for (int i = 0; i < names.Length; i++)
        {
            SomePhoto.Leaf(_door.At("block/" + names[i]), i + 1);
        }
    }

    private Task<Ran> Score(params string[] more) => _door.RunAsync(["score", _door.At("block"), "--block", "B", "--date", "2026-07-02", .. more]);

    private int PhotosOnRecord()
    {
        if (!RecordStore.Exists(_door.DataFolder))
        {
            return 0;
        }

        try
        {
            using RecordStore store = RecordStore.Open(_door.DataFolder, TimeProvider.System);
            return (int)store.Describe().Photos;
        }
        catch (RecordException)
        {
            return 0;
        }
    }

    // An independent reader of RFC 4180.
    private static List<IDictionary<string, object>> Csv(string text)
    {
        using CsvReader reader = new(new StringReader(text), CultureInfo.InvariantCulture);
        return [.. reader.GetRecords<dynamic>().Select(row => (IDictionary<string, object>)row)];
    }

    public void Dispose() => _door.Dispose();
}
