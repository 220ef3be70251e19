using System.Text.Json;
using System.Text.Json.Nodes;
using LeafScan.Cli.Tests.Support;

namespace LeafScan.Cli.Tests;

public sealed class VerdictCommandTests : IDisposable
{
    private static readonly string[] Days = ["2026-06-04", "2026-06-11", "2026-06-18", "2026-06-25", "2026-07-02"];

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
    public async Task Five_visits_get_a_direction_in_series_and_verdict_and_three_get_none()
    {
        for (int visit = 0; visit < 5; visit++)
        {
            if (visit == 3)
            {
                Ran early = await _door.RunAsync("series", "B1", "--json");
                Assert.Equal(JsonValueKind.Null, early.Json.GetProperty("trend").ValueKind);
                Assert.Contains("A direction needs 5 visits", (await _door.RunAsync("series", "B1")).Out, StringComparison.Ordinal);
            }

            SomePhoto.Leaf(_door.At($"walk{visit}/B1/a.jpg"), visit + 1);
            Ran added = await _door.RunAsync("walk", "add", _door.At($"walk{visit}"), "--place", "Garden", "--date", Days[visit]);
            Assert.True(added.Code == ExitCode.Done, added.ToString());
        }

        JsonElement series = (await _door.RunAsync("series", "B1", "--json")).Json.GetProperty("trend"), verdict = (await _door.RunAsync("verdict", "B1", "--json")).Json.GetProperty("trend");
        Assert.Equal(series.GetRawText(), verdict.GetRawText());
        Assert.Equal((5, "2026-06-04", "2026-07-02", true), (series.GetProperty("visits").GetInt32(), series.GetProperty("first").GetString(), series.GetProperty("last").GetString(), series.GetProperty("exact").GetBoolean()));
        SchemaTests.Check("series", JsonNode.Parse((await _door.RunAsync("series", "B1", "--json")).Out)!, "series of five visits");
        string words = series.GetProperty("words").GetString()!;
        Assert.StartsWith("Over 5 visits from 2026-06-04 to 2026-07-02 ", words, StringComparison.Ordinal);
        Assert.Contains(words, (await _door.RunAsync("series", "B1")).Out, StringComparison.Ordinal);
        Assert.Contains("  Direction: " + words, (await _door.RunAsync("verdict", "B1")).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Untreated_plants_bring_the_formulas_with_the_sentence_which_applies()
    {
        await AddLeaves("june", "2026-06-18", 1);
        SomePhoto.Leaf(_door.At("check/C1/0.jpg"), 9);
        await DoneAsync("walk", "add", _door.At("check"), "--place", "Garden", "--date", "2026-06-18");
        foreach (string plant in new[] { "B1", "C1" })
        {
            await DoneAsync("plants", "set", plant, "--species", "Euonymus alatus");
            await DoneAsync("tap", "add", plant, "--mites", plant == "B1" ? "50" : "40", "--date", "2026-06-18");
            await DoneAsync("care", "add", plant, "--what", plant == "B1" ? "rinse" : "nothing", "--date", "2026-06-19");
            await DoneAsync("tap", "add", plant, "--mites", plant == "B1" ? "5" : "60", "--date", "2026-07-03");
        }

        // The counts of a public test file: see EfficacyTests of LeafScan.Trends.
        JsonElement figures = (await _door.RunAsync("verdict", "B1", "--json")).Json.GetProperty("figures");
        Assert.Equal(0.933333, figures.GetProperty("mitesTaken").GetProperty("value").GetDouble(), 6);
        Assert.Equal(0.933333, figures.GetProperty("mitesTakenBySunShepard").GetDouble(), 6);
        Assert.Equal(0.916667, figures.GetProperty("mitesTakenByAbbott").GetDouble(), 6);
        Assert.Contains(
            "  Mites taken: Henderson-Tilton 93.3 %, Sun-Shepard 93.3 %, Abbott 91.7 %. " + figures.GetProperty("mitesTakenBecause").GetString(),
            (await _door.RunAsync("verdict", "B1")).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_unknown_plant_is_wrong_use()
    {
        await AddLeaves("june", "2026-06-18", 1);
        Assert.Equal(ExitCode.WrongUse, (await _door.RunAsync("verdict", "B9")).Code);
    }

    private async Task DoneAsync(params string[] words)
    {
        Ran ran = await _door.RunAsync(words);
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
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
