using System.Text.Json;
using LeafScan.Cli.Tests.Support;
using LeafScan.Records;
using OpenCvSharp;

namespace LeafScan.Cli.Tests;

public sealed class TapCommandTests : IDisposable
{
    private readonly TestDoor _door = new();

    [Fact]
    public async Task Two_photos_give_one_document_with_what_crawled_and_an_overlay()
    {
        string first = Sheet("a.jpg", 1, 0, 0);
        string second = Sheet("b.jpg", 1, 4, 14);
        Ran ran = await _door.RunAsync("tap", first, second, "--seconds", "10", "--json", "-", "--overlay", _door.At("marked.jpg"));
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        Assert.Equal("leafscan.tap/1", ran.Json.GetProperty("schema").GetString());
        Assert.Equal(4, ran.Json.GetProperty("crawling").GetInt32());
        Assert.InRange(ran.Json.GetProperty("crawlingLow").GetInt32(), 0, 4);
        Assert.InRange(ran.Json.GetProperty("crawlingHigh").GetInt32(), 4, 8);
        Assert.Equal(JsonValueKind.Null, ran.Json.GetProperty("pixelsPerMm").ValueKind);
        JsonElement[] specks = [.. ran.Json.GetProperty("specks").EnumerateArray()];
        Assert.Equal(4, specks.Count(s => s[4].GetString() == "crawling" && Math.Abs(s[3].GetDouble() - 14) < 1));
        Assert.Equal(ran.Json.GetProperty("debris").GetInt32(), specks.Count(s => s[4].GetString() == "debris"));
        using Mat overlay = Cv2.ImRead(_door.At("marked.jpg"));
        Assert.True(overlay.Rows > 600 && overlay.Cols == 800);
        SchemaTests.Check("tap", System.Text.Json.Nodes.JsonNode.Parse(ran.Out)!, "tap");
    }

    [Fact]
    public async Task People_get_the_count_in_words_and_one_photo_only_candidates()
    {
        string first = Sheet("a.jpg", 2, 0, 0);
        Ran pair = await _door.RunAsync("tap", first, Sheet("b.jpg", 2, 3, 12), "--seconds", "10");
        Assert.Contains("crawling            3", pair.Out, StringComparison.Ordinal);
        Ran one = await _door.RunAsync("tap", first);
        Assert.Equal(ExitCode.Done, one.Code);
        Assert.Contains("no count", one.Out, StringComparison.Ordinal);
        Assert.Contains("onePhotoOnly", one.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Photos_of_different_sheets_are_refused_with_a_reason_and_exit_code_three()
    {
        Ran ran = await _door.RunAsync("tap", Sheet("a.jpg", 3, 0, 0), Sheet("b.jpg", 4, 0, 0), "--json", "-");
        Assert.Equal(ExitCode.NothingMeasurable, ran.Code);
        Assert.Equal(JsonValueKind.Null, ran.Json.GetProperty("crawling").ValueKind);
        Assert.NotEmpty(ran.Json.GetProperty("refused")[0].GetProperty("advice").GetString()!);
        Assert.Contains("Refused a.jpg, b.jpg", ran.Err, StringComparison.Ordinal);
        SchemaTests.Check("tap", System.Text.Json.Nodes.JsonNode.Parse(ran.Out)!, "tap");
    }

    [Fact]
    public async Task A_damaged_third_photo_does_not_stop_the_other_two()
    {
        string broken = _door.At("c.jpg");
        await File.WriteAllTextAsync(broken, "no picture");
        Ran ran = await _door.RunAsync("tap", Sheet("a.jpg", 5, 0, 0), Sheet("b.jpg", 5, 2, 12), broken, "--seconds", "10", "--json", "-");
        Assert.Equal(ExitCode.SomeRefused, ran.Code);
        Assert.Equal(2, ran.Json.GetProperty("crawling").GetInt32());
        Assert.Equal("c.jpg", ran.Json.GetProperty("refused")[0].GetProperty("file").GetString());
    }

    [Fact]
    public async Task A_photo_of_another_sheet_in_a_burst_is_named_and_the_others_are_counted()
    {
        string strange = Sheet("c.jpg", 6, 0, 0);
        Ran ran = await _door.RunAsync("tap", strange, Sheet("a.jpg", 5, 0, 0), Sheet("b.jpg", 5, 2, 12), "--seconds", "10", "--json", "-", "--overlay", _door.At("marked.jpg"));
        Assert.Equal(ExitCode.SomeRefused, ran.Code);
        Assert.Equal(2, ran.Json.GetProperty("crawling").GetInt32());
        Assert.Equal("c.jpg", ran.Json.GetProperty("refused")[0].GetProperty("file").GetString());
        Assert.True(File.Exists(_door.At("marked.jpg")));
    }

    [Fact]
    public async Task With_a_plant_the_tap_goes_on_record_with_the_lens_count_beside_the_photos()
    {
        Begin();
        string first = Sheet("a.jpg", 1, 0, 0);
        string second = Sheet("b.jpg", 1, 4, 14);
        Ran kept = await _door.RunAsync("tap", first, second, "--seconds", "10", "--plant", "EU-1", "--strikes", "5", "--mites", "6", "--json", "-");
        Assert.True(kept.Code == ExitCode.Done, kept.ToString());
        Assert.Equal(6, kept.Json.GetProperty("mitesByLens").GetInt32());
        SchemaTests.Check("tap", System.Text.Json.Nodes.JsonNode.Parse(kept.Out)!, "tap");
        Ran byPhoto = await _door.RunAsync("tap", first, second, "--seconds", "10", "--plant", "EU-1");
        Assert.Contains("Kept: 4 crawling on the photos on EU-1", byPhoto.Out, StringComparison.Ordinal);
        Ran one = await _door.RunAsync("tap", first, "--plant", "EU-1");
        Assert.Contains("Nothing was kept for EU-1", one.Out, StringComparison.Ordinal);
        using RecordStore store = RecordStore.Open(_door.DataFolder, TimeProvider.System);
        IReadOnlyList<TapOnRecord> taps = store.TapsOfPlant(store.FindPlants("EU-1", null)[0].Id);
        Assert.Equal([(6, 4, 5), (null, 4, null)], taps.Select(tap => (tap.Tap.MitesByLens, tap.Tap.MitesByPhoto, tap.Tap.Strikes)));
    }

    [Fact]
    public async Task A_plant_that_is_not_on_record_is_said_before_anything_is_read()
    {
        Begin();
        Ran ran = await _door.RunAsync("tap", "missing.jpg", "--plant", "EU-9");
        Assert.Equal(ExitCode.WrongUse, ran.Code);
        Assert.Contains("EU-9", ran.Err, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("tap", "a.jpg", "--mites", "4")]
    [InlineData("tap")]
    [InlineData("tap", "a.jpg", "b.jpg", "--seconds", "0")]
    [InlineData("tap", "a.jpg", "b.jpg", "--colour")]
    public async Task Wrong_use_is_told(params string[] words)
    {
        Ran ran = await _door.RunAsync(words);
        Assert.Equal(ExitCode.WrongUse, ran.Code);
        Assert.Empty(ran.Out);
    }

    public void Dispose() => _door.Dispose();

    private void Begin()
    {
        using RecordStore store = RecordStore.Open(_door.DataFolder, TimeProvider.System);
        store.FindOrAddPlant(store.FindOrAddPlace("Hill nursery").Id, "EU-1");
    }

    // Dots on a grid that chance has shaken; some of them, well apart, walk.
    private string Sheet(string name, int seed, int walking, int way)
    {
        Random random = new(seed);
        using Mat large = new(2400, 3200, MatType.CV_8UC3, new Scalar(232, 235, 236));
        for (int i = 0; i < 80; i++)
        {
            int x = 120 + (76 * (i % 10)) - random.Next(0, 56);
            int y = 80 + (66 * (i / 10)) - random.Next(0, 46);
            int radius = random.Next(5, 16);
            int dark = random.Next(70, 150);
            int step = i < walking * 11 && i % 11 == 0 ? way : 0;

            // Each another way: all the same way would be wind.
            (int right, int down) = (i / 11 % 4) switch { 0 => (step, 0), 1 => (0, step), 2 => (-step, 0), _ => (0, -step) };
            Cv2.Circle(large, new Point((x + right - 40) * 4, (y + down) * 4), radius, new Scalar(dark, dark, dark), -1);
        }

        using Mat photo = new();
        Cv2.Resize(large, photo, new Size(800, 600), 0, 0, InterpolationFlags.Area);
        Cv2.GaussianBlur(photo, photo, default, 0.8);
        Cv2.ImWrite(_door.At(name), photo);
        return _door.At(name);
    }
}
