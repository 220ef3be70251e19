using System.Text.Json;
using LeafScan.Cli.Tests.Support;

namespace LeafScan.Cli.Tests;

public sealed class NextCommandTests : IDisposable
{
    private readonly TestDoor _door = new();

    [Fact]
    public async Task A_plant_without_a_tap_is_to_be_tapped_and_looked_at_again()
    {
        await AddWalk();
        Ran ran = await _door.RunAsync("next", "B1", "--date", "2026-06-20", "--json");
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        Assert.Equal(("leafscan.next/1", "2026-06-27"), (ran.Json.GetProperty("schema").GetString(), ran.Json.GetProperty("lookAgainOn").GetString()));
        Assert.StartsWith("Tap before treating", ran.Json.GetProperty("steps")[0].GetProperty("words").GetString(), StringComparison.Ordinal);
        Assert.Equal(JsonValueKind.Null, ran.Json.GetProperty("leaves").ValueKind);
        Assert.All(ran.Json.GetProperty("steps").EnumerateArray(), step => Assert.NotEmpty(step.GetProperty("source").GetString()!));

        string shown = (await _door.RunAsync("next", "B1", "--date", "2026-06-20")).Out;
        Assert.StartsWith("B1 in Garden, 2026-06-20\n", shown, StringComparison.Ordinal);
        Assert.Contains("The label is the law", shown, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_look_at_leaves_takes_the_place_of_taps()
    {
        await AddWalk();
        JsonElement plan = (await _door.RunAsync("next", "B1", "--by-leaves", "--json")).Json;
        Assert.Equal(JsonValueKind.Null, plan.GetProperty("taps").ValueKind);

        // Binns, Nyrop and van der Werf 2000: with the almond shares the lines at 20 leaves lie at 4.25 and 8.61.
        JsonElement at20 = plan.GetProperty("leaves").GetProperty("lines").EnumerateArray().Single(line => line.GetProperty("leaves").GetInt32() == 20);
        Assert.Equal((4, 9), (at20.GetProperty("fewAt").GetInt32(), at20.GetProperty("manyAt").GetInt32()));
    }

    [Fact]
    public async Task Mites_are_reckoned_a_branch_where_several_were_tapped_over_one_sheet()
    {
        await AddWalk();
        await _door.RunAsync("plants", "set", "B1", "--species", "Picea glauca");
        Ran tap = await _door.RunAsync("tap", "add", "B1", "--mites", "12", "--branches", "3", "--strikes", "5", "--date", "2026-06-18");
        Assert.Contains("12 live mites from 3 branches, 5 strikes each (4.0 a branch)", tap.Out, StringComparison.Ordinal);
        Assert.Contains("3 tapped branches that day: 4.0 a tap", tap.Out, StringComparison.Ordinal);

        JsonElement series = (await _door.RunAsync("series", "B1", "--json")).Json;
        Assert.Equal((12, 3, 4.0), (
            series.GetProperty("taps")[0].GetProperty("mites").GetInt32(), series.GetProperty("taps")[0].GetProperty("branches").GetInt32(), series.GetProperty("taps")[0].GetProperty("mitesABranch").GetDouble()));
    }

    [Fact]
    public async Task A_threshold_of_ones_own_is_used_by_tap_add_and_next()
    {
        await AddWalk();
        await _door.RunAsync("plants", "set", "B1", "--species", "Rosa canina");
        Assert.Contains("No threshold per tap is published", (await _door.RunAsync("tap", "add", "B1", "--mites", "20", "--date", "2026-06-18")).Out, StringComparison.Ordinal);
        Ran set = await _door.RunAsync("thresholds", "set", "mites-per-tap", "5", "--species", "Rosa", "--source", "own records", "--region", "valley");
        Assert.True(set.Code == ExitCode.Done, set.ToString());
        Assert.Equal("Set: mites-per-tap 5 for Rosa.\n", set.Out);
        Ran tap = await _door.RunAsync("tap", "add", "B1", "--mites", "24", "--date", "2026-06-18");
        Assert.Contains("surely above 5 [your own: own records (valley)]", tap.Out, StringComparison.Ordinal);
        JsonElement next = (await _door.RunAsync("next", "B1", "--date", "2026-06-19", "--json")).Json;
        Assert.Equal(5, next.GetProperty("threshold").GetProperty("value").GetDouble());
        Assert.Contains("rinse", next.GetProperty("steps")[0].GetProperty("words").GetString(), StringComparison.Ordinal);

        Assert.Matches("mites-per-tap +5 +Rosa +all +yours +own records \\(valley\\)", (await _door.RunAsync("thresholds")).Out);
        Assert.Equal(ExitCode.Done, (await _door.RunAsync("thresholds", "reset", "mites-per-tap", "--species", "rosa")).Code);
        Assert.Equal(ExitCode.WrongUse, (await _door.RunAsync("thresholds", "reset", "mites-per-tap", "--species", "rosa")).Code);
        Assert.DoesNotContain((await _door.RunAsync("thresholds", "--json")).Json.GetProperty("thresholds").EnumerateArray(), entry => entry.GetProperty("own").GetBoolean());
    }

    [Fact]
    public async Task All_plants_come_in_a_list_with_those_to_do_first()
    {
        await AddWalk();
        SomePhoto.Leaf(_door.At("june/B2/leaf.jpg"), 2);
        await _door.RunAsync("walk", "add", _door.At("june"), "--place", "Garden", "--date", "2026-06-18");
        await _door.RunAsync("tap", "add", "B1", "--mites", "0", "--date", "2026-06-18");
        Ran list = await _door.RunAsync("next", "--place", "garden", "--date", "2026-06-19", "--json");
        Assert.Equal(["B2", "B1"], list.Json.GetProperty("plants").EnumerateArray().Select(plant => plant.GetProperty("code").GetString()));
        Assert.Equal([false, true], list.Json.GetProperty("plants").EnumerateArray().Select(plant => plant.GetProperty("rest").GetBoolean()));
        Assert.Matches("B1 +Garden +2026-06-26 +Rest: nothing to do now", (await _door.RunAsync("next", "--date", "2026-06-19")).Out);
        Assert.Contains("No plant is on record there", (await _door.RunAsync("next", "--place", "elsewhere")).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_same_mode_group_twice_in_a_row_is_warned_of()
    {
        await AddWalk();
        Ran first = await _door.RunAsync("care", "add", "B1", "--what", "miticide", "--active", "hexythiazox", "--date", "2026-06-01");
        Ran second = await _door.RunAsync("care", "add", "B1", "--what", "miticide", "--mode-group", "10A", "--date", "2026-06-15");
        Ran third = await _door.RunAsync("care", "add", "B1", "--what", "miticide", "--mode-group", "6", "--date", "2026-06-29");
        Assert.Empty(first.Err);
        Assert.Contains("Group 10A twice in a row on B1", second.Err, StringComparison.Ordinal);
        Assert.Empty(third.Err);
    }

    [Theory]
    [InlineData("thresholds", "set", "bees", "5", "--source", "x")]
    [InlineData("thresholds", "set", "mites-per-tap", "0", "--source", "x")]
    [InlineData("thresholds", "set", "mites-per-tap", "many", "--source", "x")]
    [InlineData("thresholds", "set", "mites-per-tap", "5")]
    [InlineData("thresholds", "set", "leaves-with-mites-low", "100", "--source", "x")]
    [InlineData("next", "--date", "tomorrow")]
    public async Task Wrong_use_is_told(params string[] words)
    {
        Ran ran = await _door.RunAsync(words);
        Assert.True(ran.Code == ExitCode.WrongUse, ran.ToString());
        Assert.NotEmpty(ran.Err);
    }

    private async Task AddWalk()
    {
        SomePhoto.Leaf(_door.At("june/B1/leaf.jpg"), 1);
        Ran ran = await _door.RunAsync("walk", "add", _door.At("june"), "--place", "Garden", "--date", "2026-06-18");
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
    }

    public void Dispose() => _door.Dispose();
}
