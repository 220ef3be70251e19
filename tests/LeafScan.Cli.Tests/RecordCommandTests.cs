using System.Text.Json;
using LeafScan.Cli.Tests.Support;
using LeafScan.Records;

namespace LeafScan.Cli.Tests;

public sealed class RecordCommandTests : IDisposable
{
    private readonly TestDoor _door = new();

    [Theory]
    [InlineData("plants")]
    [InlineData("series", "B1")]
    [InlineData("compare", "--from", "2026-06", "--to", "2026-07")]
    [InlineData("verdict", "B1")]
    [InlineData("backup")]
    [InlineData("care", "add", "B1", "--what", "rinse")]
    [InlineData("plants", "set", "B1", "--name", "x")]
    [InlineData("tap", "add", "B1", "--mites", "0")]
    [InlineData("photos")]
    [InlineData("undo")]
    [InlineData("bin")]
    [InlineData("export", "--out", "never.zip")]
    public async Task Without_a_record_the_first_step_is_named_and_none_is_begun(params string[] words)
    {
        Ran ran = await _door.RunAsync(words);
        Assert.Equal(ExitCode.WrongUse, ran.Code);
        Assert.Contains("Add a walk first", ran.Err, StringComparison.Ordinal);
        Assert.Empty(ran.Out);
        Assert.False(Directory.Exists(_door.DataFolder));
    }

    [Fact]
    public async Task Two_months_stand_side_by_side()
    {
        await AddLeaves("june", "2026-06-18", 5);
        await AddLeaves("july", "2026-07-20", 5);
        Ran ran = await _door.RunAsync("compare", "--from", "2026-06", "--to", "2026-07", "--json");
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        JsonElement plant = ran.Json.GetProperty("plants")[0];
        Assert.Equal("B1", plant.GetProperty("code").GetString());
        Assert.Equal(5, plant.GetProperty("earlier").GetProperty("leaves").GetInt32());
        Assert.Equal(5, plant.GetProperty("later").GetProperty("leaves").GetInt32());
        Assert.Contains(plant.GetProperty("change").GetString(), (string[])["better", "worse", "same", "cannotTell"]);

        Ran shown = await _door.RunAsync("compare", "--from", "2026-06", "--to", "2026-07");
        Assert.Contains("2026-06", shown.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_same_record_gives_the_same_intervals_digit_for_digit()
    {
        await AddLeaves("june", "2026-06-18", 3);
        Assert.Equal((await _door.RunAsync("series", "B1", "--json")).Out, (await _door.RunAsync("series", "B1", "--json")).Out);
    }

    [Fact]
    public async Task Care_stands_in_the_series_between_the_walks()
    {
        await AddLeaves("june", "2026-06-18", 1);
        Ran kept = await _door.RunAsync("care", "add", "B1", "--what", "rinse", "--date", "2026-06-20", "--note", "undersides");
        Assert.Equal(ExitCode.Done, kept.Code);
        Ran series = await _door.RunAsync("series", "B1");
        Assert.Matches("2026-06-20 +rinse: undersides", series.Out);
        JsonElement care = (await _door.RunAsync("series", "B1", "--json")).Json.GetProperty("care")[0];
        Assert.Equal("rinse", care.GetProperty("what").GetString());
    }

    [Fact]
    public async Task An_unknown_plant_is_answered_with_those_there_are()
    {
        await AddLeaves("june", "2026-06-18", 1);
        Ran ran = await _door.RunAsync("series", "B9");
        Assert.Equal(ExitCode.WrongUse, ran.Code);
        Assert.Contains("There are: B1.", ran.Err, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_code_that_two_places_use_asks_for_the_place()
    {
        await AddLeaves("june", "2026-06-18", 1);
        SomePhoto.Leaf(_door.At("other/B1/leaf.jpg"), 99);
        await _door.RunAsync("walk", "add", _door.At("other"), "--place", "Park", "--date", "2026-06-18");
        Ran unclear = await _door.RunAsync("series", "B1");
        Assert.Equal(ExitCode.WrongUse, unclear.Code);
        Assert.Contains("--place", unclear.Err, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Done, (await _door.RunAsync("series", "B1", "--place", "park")).Code);
    }

    [Fact]
    public async Task A_backup_is_a_whole_record_and_overwrites_nothing()
    {
        await AddLeaves("june", "2026-06-18", 2);
        string target = _door.At("stick/leafscan.db");
        Ran ran = await _door.RunAsync("backup", target, "--json");
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        Assert.Equal(target, ran.Json.GetProperty("file").GetString());
        using (RecordStore copy = RecordStore.Open(_door.At("stick"), TimeProvider.System))
        {
            Assert.Equal(2, copy.Describe().Photos);
        }

        Assert.Equal(ExitCode.StoreTrouble, (await _door.RunAsync("backup", target)).Code);
    }

    [Fact]
    public async Task A_file_that_is_no_record_is_left_alone()
    {
        Directory.CreateDirectory(_door.DataFolder);
        string file = Path.Combine(_door.DataFolder, RecordStore.FileName);
        await File.WriteAllTextAsync(file, "This is a shopping list.\n");
        Ran ran = await _door.RunAsync("plants");
        Assert.Equal(ExitCode.StoreTrouble, ran.Code);
        Assert.Single(ran.Err.TrimEnd().Split('\n'));
        Assert.Equal("This is a shopping list.\n", await File.ReadAllTextAsync(file));
        Assert.Equal(ExitCode.StoreTrouble, (await _door.RunAsync("doctor")).Code);
    }

    [Fact]
    public async Task The_data_folder_of_the_option_wins()
    {
        SomePhoto.Leaf(_door.At("june/B1/leaf.jpg"));
        await _door.RunAsync("walk", "add", _door.At("june"), "--place", "Garden", "--date", "2026-06-18", "--data-dir", _door.At("mine"));
        Assert.True(RecordStore.Exists(_door.At("mine")));
        Assert.False(Directory.Exists(_door.DataFolder));
        Assert.Equal(ExitCode.Done, (await _door.RunAsync("plants", "--data-dir", _door.At("mine"))).Code);
    }

    [Fact]
    public async Task Doctor_says_what_is_there_and_where()
    {
        await AddLeaves("june", "2026-06-18", 1);
        Ran ran = await _door.RunAsync("doctor", "--json");
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        Dictionary<string, string> states = ran.Json.GetProperty("checks").EnumerateArray()
            .ToDictionary(check => check.GetProperty("what").GetString()!, check => check.GetProperty("state").GetString()!);
        Assert.Equal("good", states["measuring"]);
        Assert.Equal("good", states["photo reading"]);
        Assert.Equal("good", states["record"]);
        Assert.Contains(_door.DataFolder, ran.Out, StringComparison.Ordinal);
    }

    private async Task AddLeaves(string folder, string day, int count)
    {
        for (int i = 0; i < count; i++)
        {
            SomePhoto.Leaf(_door.At($"{folder}/B1/{i}.jpg"), i + (100 * int.Parse(day[5..7], System.Globalization.CultureInfo.InvariantCulture)));
        }

        Ran ran = await _door.RunAsync("walk", "add", _door.At(folder), "--place", "Garden", "--date", day);
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
    }

    public void Dispose() => _door.Dispose();
}
