using System.Text.Json;
using LeafScan.Cli.Tests.Support;

namespace LeafScan.Cli.Tests;

public sealed class VerdictCommandTests : IDisposable
{
    private readonly TestDoor _door = new();

    [Fact]
    public async Task A_rinsed_plant_gets_a_word_its_reasons_and_the_next_step()
    {
        await AddLeaves("june", "2026-06-18", 3);
        await _door.RunAsync("care", "add", "B1", "--what", "rinse", "--date", "2026-06-19");
        Ran ran = await _door.RunAsync("verdict", "B1", "--json");
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        Assert.Equal("leafscan.verdict/1", ran.Json.GetProperty("schema").GetString());
        Assert.Equal("tooEarly", ran.Json.GetProperty("verdict").GetString());
        Assert.Equal("2026-06-19", ran.Json.GetProperty("careSince").GetString());
        Assert.All(ran.Json.GetProperty("because").EnumerateArray(), sentence => Assert.EndsWith(".", sentence.GetString(), StringComparison.Ordinal));
        Assert.NotEmpty(ran.Json.GetProperty("because").EnumerateArray());
        Assert.NotEmpty(ran.Json.GetProperty("next").GetString()!);

        Ran shown = await _door.RunAsync("verdict", "B1");
        Assert.StartsWith("B1 in Garden: too early\n", shown.Out, StringComparison.Ordinal);
        Assert.Contains("Next: ", shown.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task All_plants_of_a_place_are_judged_without_a_code()
    {
        await AddLeaves("june", "2026-06-18", 1);
        Ran ran = await _door.RunAsync("verdict", "--place", "garden", "--json");
        JsonElement plant = Assert.Single(ran.Json.GetProperty("plants").EnumerateArray());
        Assert.Equal(("B1", "tooEarly"), (plant.GetProperty("code").GetString(), plant.GetProperty("verdict").GetString()));
        Assert.Contains("No plant is on record there", (await _door.RunAsync("verdict", "--place", "elsewhere")).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_unknown_plant_is_wrong_use()
    {
        await AddLeaves("june", "2026-06-18", 1);
        Assert.Equal(ExitCode.WrongUse, (await _door.RunAsync("verdict", "B9")).Code);
    }

    private async Task AddLeaves(string folder, string day, int count)
    {
        for (int i = 0; i < count; i++)
        {
            SomePhoto.Leaf(_door.At($"{folder}/B1/{i}.jpg"), i + 1);
        }

        Ran ran = await _door.RunAsync("walk", "add", _door.At(folder), "--place", "Garden", "--date", day);
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
    }

    public void Dispose() => _door.Dispose();
}
