using System.Text.Json;
using LeafScan.Cli.Tests.Support;
using LeafScan.Records;

namespace LeafScan.Cli.Tests;

public sealed class WalkCommandTests : IDisposable
{
    private readonly TestDoor _door = new();

    [Fact]
    public async Task A_folder_a_plant_becomes_a_walk_that_every_other_command_reads()
    {
        MakeWalk("june", "B1", "B2");
        Ran ran = await Add("june", "2026-06-18");
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        Assert.Contains("2 new, 0 already here, 0 refused", ran.Out, StringComparison.Ordinal);

        JsonElement plants = (await _door.RunAsync("plants", "--json")).Json.GetProperty("plants");
        Assert.Equal(["B1", "B2"], plants.EnumerateArray().Select(plant => plant.GetProperty("code").GetString()));
        JsonElement walks = (await _door.RunAsync("series", "b1", "--json")).Json.GetProperty("walks");
        Assert.Equal("2026-06-18", walks[0].GetProperty("date").GetString());
        Assert.Equal(1, walks[0].GetProperty("figures").GetProperty("leaves").GetInt32());
    }

    [Fact]
    public async Task Adding_again_changes_nothing_and_names_what_is_here()
    {
        MakeWalk("june", "B1", "B2");
        await Add("june", "2026-06-18");
        Ran again = await Add("june", "2026-06-18");
        Assert.Equal(ExitCode.Done, again.Code);
        Assert.Contains("0 new, 2 already here, 0 refused", again.Out, StringComparison.Ordinal);
        Assert.Contains("Already here: leaf.jpg", again.Err.Replace("B1/", string.Empty, StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Equal(2, Facts().Photos);
    }

    [Fact]
    public async Task The_same_bytes_twice_in_a_folder_are_one_photo()
    {
        SomePhoto.Leaf(_door.At("june/B1/one.jpg"), 5);
        File.Copy(_door.At("june/B1/one.jpg"), _door.At("june/B1/two.jpg"));
        Ran ran = await Add("june", "2026-06-18");
        Assert.Contains("1 new, 1 already here, 0 refused", ran.Out, StringComparison.Ordinal);
        Assert.Contains("two.jpg (same bytes as one.jpg", ran.Err, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_a_day_anywhere_nothing_is_added_and_the_way_out_is_named()
    {
        MakeWalk("june", "B1");
        Ran ran = await _door.RunAsync("walk", "add", _door.At("june"), "--place", "Garden");
        Assert.Equal(ExitCode.WrongUse, ran.Code);
        Assert.Contains("--date", ran.Err, StringComparison.Ordinal);
        Assert.Equal(0, Facts().Walks);
    }

    [Fact]
    public async Task The_day_of_the_walk_comes_from_the_capture_times()
    {
        string samples = Path.Combine(AppContext.BaseDirectory, "sample-images", "walk-2026-07-02");
        CopyOne(Path.Combine(samples, "B03"), "july/B03");
        SomePhoto.Leaf(_door.At("july/B03/timeless.jpg"));
        Ran ran = await _door.RunAsync("walk", "add", _door.At("july"), "--place", "Garden", "--json");
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        Assert.All(ran.Json.GetProperty("added").EnumerateArray(), photo => Assert.Equal("2026-07-02", photo.GetProperty("date").GetString()));
    }

    [Fact]
    public async Task A_dry_run_writes_nothing_at_all()
    {
        MakeWalk("june", "B1");
        Ran ran = await _door.RunAsync("walk", "add", _door.At("june"), "--place", "Garden", "--date", "2026-06-18", "--dry-run");
        Assert.Equal(ExitCode.Done, ran.Code);
        Assert.Contains("Would add 1 new", ran.Out, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_door.DataFolder));
    }

    [Fact]
    public async Task A_refused_file_is_told_and_the_rest_is_added()
    {
        MakeWalk("june", "B1");
        SomePhoto.Text(_door.At("june/B1/empty.jpg"), string.Empty);
        Ran ran = await Add("june", "2026-06-18");
        Assert.Equal(ExitCode.SomeRefused, ran.Code);
        Assert.Contains("1 new, 0 already here, 1 refused", ran.Out, StringComparison.Ordinal);
        Assert.Contains("Refused empty.jpg: ", ran.Err, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_run_that_was_stopped_goes_on_where_it_was()
    {
        for (int i = 0; i < 10; i++)
        {
            SomePhoto.Leaf(_door.At($"june/B1/{i}.jpg"), i, 900, 600);
        }

        Ran first = await _door.RunUntilAsync(
            () => RecordStore.Exists(_door.DataFolder) && Facts().Photos > 0,
            "walk", "add", _door.At("june"), "--place", "Garden", "--date", "2026-06-18", "--jobs", "1");
        Assert.True(first.Code == ExitCode.Stopped, first.ToString());
        Assert.Contains("run the same command again", first.Err, StringComparison.Ordinal);
        long kept = Facts().Photos;
        Assert.InRange(kept, 1, 9);

        Ran second = await Add("june", "2026-06-18");
        Assert.Contains($"{10 - kept} new, {kept} already here", second.Out, StringComparison.Ordinal);
        Assert.Equal(10, Facts().Photos);
        using RecordStore store = OpenStore();
        Assert.Empty(store.CheckIntegrity());
        Assert.Equal([RunEnding.Finished, RunEnding.Stopped], store.Runs().Select(run => run.Ending!.Value));
    }

    [Fact]
    public async Task Two_commands_at_once_on_one_store_lose_and_double_nothing()
    {
        for (int i = 0; i < 6; i++)
        {
            SomePhoto.Leaf(_door.At($"june/B1/{i}.jpg"), i);
        }

        Ran[] both = await Task.WhenAll(Task.Run(() => Add("june", "2026-06-18")), Task.Run(() => Add("june", "2026-06-18")));
        Assert.All(both, ran => Assert.True(ran.Code == ExitCode.Done, ran.ToString()));
        Assert.Equal(6, Facts().Photos);
        using RecordStore store = OpenStore();
        Assert.Empty(store.CheckIntegrity());
        Assert.Equal(6, store.Runs().Sum(run => run.Counts!.PhotosAdded));
    }

    [Fact]
    public async Task A_photo_without_a_plant_is_kept_and_said()
    {
        SomePhoto.Leaf(_door.At("june/IMG_0001.jpg"));
        Ran ran = await Add("june", "2026-06-18");
        Assert.Equal(ExitCode.Done, ran.Code);
        Assert.Contains("Without a plant: 1 photo.", ran.Err, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_folder_that_is_not_there_is_wrong_use_and_begins_no_record()
    {
        Ran ran = await _door.RunAsync("walk", "add", _door.At("nowhere"), "--place", "Garden");
        Assert.Equal(ExitCode.WrongUse, ran.Code);
        Assert.False(Directory.Exists(_door.DataFolder));
    }

    private Task<Ran> Add(string folder, string day) => _door.RunAsync("walk", "add", _door.At(folder), "--place", "Garden", "--date", day);

    private void MakeWalk(string folder, params string[] plants)
    {
        for (int i = 0; i < plants.Length; i++)
        {
            SomePhoto.Leaf(_door.At($"{folder}/{plants[i]}/leaf.jpg"), i + 1);
        }
    }

    private void CopyOne(string from, string to)
    {
        string first = Directory.GetFiles(from, "*.jpg").Order(StringComparer.Ordinal).First();
        File.Copy(first, Path.Combine(_door.MakeFolder(to), Path.GetFileName(first)));
    }

    private RecordStore OpenStore() => RecordStore.Open(_door.DataFolder, TimeProvider.System);

    private StoreFacts Facts()
    {
        using RecordStore store = OpenStore();
        return store.Describe();
    }

    public void Dispose() => _door.Dispose();
}
