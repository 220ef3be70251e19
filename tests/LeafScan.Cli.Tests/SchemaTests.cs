using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using LeafScan.Cli.Tests.Support;
using LeafScan.Records;

namespace LeafScan.Cli.Tests;

/// <summary>
/// Documents for other programs against the schemas in docs/schemas, by JsonSchema.Net, which knows nothing of LeafScan. The tests
/// are stricter than the published files: a property that the schema does not name fails too.
/// </summary>
public sealed class SchemaTests : IDisposable
{
    private static readonly EvaluationOptions All = new() { OutputFormat = OutputFormat.List };

    private readonly TestDoor _door = new();

    public static TheoryData<string> Files => [.. Directory.GetFiles(RepositoryFiles.Find("docs/schemas"), "*.json").Select(file => Path.GetFileName(file)!).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Files))]
    public void A_published_schema_is_one_of_draft_2020_12_and_names_its_format(string file)
    {
        using JsonDocument schema = JsonDocument.Parse(File.ReadAllText(RepositoryFiles.Find("docs/schemas/" + file)));
        Assert.Equal("https://json-schema.org/draft/2020-12/schema", schema.RootElement.GetProperty("$schema").GetString());
        Assert.True(MetaSchemas.Draft202012.Evaluate(schema.RootElement, All).IsValid);
        string name = schema.RootElement.GetProperty("properties").GetProperty("schema").GetProperty("const").GetString()!;
        Assert.Equal($"leafscan.{file.Replace("-1.json", "/1", StringComparison.Ordinal)}", name);
        Assert.Contains($"`{name}`", File.ReadAllText(RepositoryFiles.Find("docs/reading-format.md")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Every_document_for_other_programs_is_as_its_schema_says()
    {
        string folder = _door.MakeFolder("walk/EU-1");
        SomePhoto.Leaf(Path.Combine(folder, "a.jpg"));
        SomePhoto.Leaf(Path.Combine(folder, "tagged-3 b.jpg"), seed: 4);
        SomePhoto.CutAtAThird(Path.Combine(folder, "bad.jpg"));
        Ran measured = await _door.RunAsync("measure", folder, "--json", _door.At("reading.json"));
        Assert.True(measured.Code is ExitCode.Done or ExitCode.SomeRefused, measured.ToString());
        Check("reading", "reading.json");

        Ran scored = await _door.RunAsync("score", _door.At("walk"), "--block", "South bed", "--date", "2026-07-02", "--json", _door.At("score.json"));
        Assert.True(scored.Code is ExitCode.Done or ExitCode.SomeRefused, scored.ToString());
        Check("score", "score.json");
        await DoneAsync("care", "add", "EU-1", "--what", "rinse", "--date", "2026-07-03");
        await DoneAsync("tap", "add", "EU-1", "--mites", "4", "--strikes", "5", "--date", "2026-07-02");
        foreach ((string schema, string[] words) in new (string, string[])[]
        {
            ("card", ["card", "EU-1", "--out", _door.At("card.json")]),
            ("readings", ["export", "readings", "--out", _door.At("readings.json")]),
            ("series-table", ["export", "series", "--out", _door.At("series-table.json")]),
            ("block", ["export", "block", "South bed", "--out", _door.At("block.json")]),
            ("series", ["series", "EU-1", "--json", _door.At("series.json")]),
            ("note", ["note", "EU-1", "--no-picture", "--out", _door.At("note.json")]),
            ("note", ["note", "--place", "Nursery", "--no-picture", "--out", _door.At("note.json")]),
            ("card", ["card", "--photo", Path.Combine(folder, "a.jpg"), "--leaf", "1", "--out", _door.At("card.json")]),
        })
        {
            await DoneAsync(words);
            Check(schema, schema + ".json");
        }
    }

    [Fact]
    public async Task Verdict_comparison_advice_care_and_taps_are_as_their_schemas_say_also_where_little_is_known()
    {
        using (RecordStore store = RecordStore.Open(_door.DataFolder, TimeProvider.System))
        {
            // A season with labelled leaves, untreated plants, weather and taps, and a plant of which nothing is known.
            for (int week = 0; week < 10; week++)
            {
                DateOnly day = new DateOnly(2026, 6, 4).AddDays(7 * week);
                foreach ((string plant, double damage) in new[] { ("B1", 0.05 + (0.01 * week)), ("B2", 0.04 + (0.02 * week)), ("B3", 0.03) })
                {
                    for (int leaf = 0; leaf < 4; leaf++)
                    {
                        SomeRecord.Photo(store, plant, day, damage + (0.002 * leaf), leaf);
                    }
                }
            }

            long place = store.Plants()[0].PlaceId;
            store.FindOrAddPlant(place, "B9");
            store.AddWeather(place, [.. Enumerable.Range(0, 100).Select(day => new WeatherDay(new DateOnly(2026, 5, 15).AddDays(day), 14, 29, "invented"))]);
            foreach (Plant plant in store.Plants())
            {
                store.EditPlant(plant.Id, old => old with { Species = "Euonymus alatus", Facts = old.Facts with { IsCheck = old.Code == "B2" } }, "test");
            }

            foreach (PhotoOnRecord photo in store.Photos())
            {
                store.NotePhotoLeaf(photo.Id, LeafGrowth.Old, photo.FileName.Split('-', '.')[1], "test");
            }
        }

        await DoneAsync("care", "add", "B1", "--what", "rinse", "--date", "2026-06-20");
        foreach ((string plant, string mites) in new[] { ("B1", "12"), ("B2", "15"), ("B1", "2"), ("B2", "30") })
        {
            await DoneAsync("tap", "add", plant, "--mites", mites, "--date", int.Parse(mites, System.Globalization.CultureInfo.InvariantCulture) is 12 or 15 ? "2026-06-18" : "2026-07-02");
        }

        await DoneAsync("thresholds", "set", "mites-per-tap", "5", "--source", "own records");
        foreach ((string schema, string[] words) in new (string, string[])[]
        {
            ("verdict", ["verdict", "B1"]),
            ("verdict", ["verdict", "B9"]),
            ("verdicts", ["verdict"]),
            ("compare", ["compare", "--from", "2026-06", "--to", "2026-07"]),
            ("compare", ["compare", "B1", "--from", "2026-06", "--to", "2026-07"]),
            ("compare", ["compare", "--from", "2026-08", "--to", "2026-09"]),
            ("next", ["next", "B1", "--date", "2026-07-03"]),
            ("next", ["next", "B1", "--by-leaves"]),
            ("next", ["next", "B9"]),
            ("next-list", ["next", "--date", "2026-07-03"]),
            ("care", ["care", "add", "B3", "--what", "miticide", "--active", "hexythiazox", "--mode-group", "10A", "--label-number", "1", "--at", "19:30", "--against", "eggs", "--conditions", "calm"]),
            ("care", ["care", "set", "2", "--what", "oil", "--at", "", "--note", "evening", "--active", ""]),
            ("tap-entry", ["tap", "add", "B3", "--mites", "0"]),
            ("tap-entry", ["tap", "set", "5", "--mites", "3", "--strikes", "5", "--branches", "2", "--predators", "0", "--hours-since-rinse", "1.5", "--sheet", "210x297", "--note", "again"]),
        })
        {
            await DoneAsync([.. words, "--json", _door.At(schema + ".json")]);
            Check(schema, schema + ".json");
        }

        // What is null in a poor record must be there in a rich one, or half of the schema was not tried.
        await DoneAsync("verdict", "B1", "--json", _door.At("verdict.json"));
        Assert.NotNull(Parse("verdict.json")["figures"]!["mitesTaken"]);
        Assert.NotNull(Parse("verdict.json")["trend"]);
        await DoneAsync("compare", "--from", "2026-06", "--to", "2026-07", "--json", _door.At("compare.json"));
        Assert.NotNull(Parse("compare.json")["together"]!["difference"]);
        Assert.NotNull(Parse("compare.json")["plants"]![0]!["taggedLeaves"]);
    }

    [Fact]
    public async Task A_whole_plant_is_as_the_schema_of_readings_says()
    {
        string photo = SomePhoto.Bush(_door.At("plant.jpg"));
        Ran ran = await _door.RunAsync("measure", photo, "--kind", "plant", "--json", _door.At("reading.json"));
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        Check("reading", "reading.json");
        Assert.True(Parse("reading.json")["photos"]![0]!["leaves"]![0]!.AsObject().ContainsKey("crown"));
    }

    [Theory]
    [InlineData("damage above 1")]
    [InlineData("no interval")]
    [InlineData("a word nobody knows")]
    [InlineData("a day in another form")]
    public async Task A_document_that_is_not_as_it_should_be_is_found_out(string fault)
    {
        string photo = SomePhoto.Leaf(_door.At("a.jpg"));
        await DoneAsync("card", "--photo", photo, "--out", _door.At("card.json"));
        JsonNode card = Parse("card.json");
        Assert.True(Strict("card").Evaluate(Element(card), All).IsValid);
        _ = fault switch
        {
            "damage above 1" => card["damage"] = 1.2,
            "no interval" => card.AsObject().Remove("damageLow"),
            "a word nobody knows" => card["surprise"] = 1,
            _ => card["date"] = "02.07.2026",
        };
        Assert.False(Strict("card").Evaluate(Element(card), All).IsValid);
    }

    public void Dispose() => _door.Dispose();

    private async Task DoneAsync(params string[] words)
    {
        Ran ran = await _door.RunAsync(words);
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
    }

    private void Check(string schema, string file) => Check(schema, Parse(file), file);

    /// <summary>That a document is as its schema says and holds nothing that the schema does not name.</summary>
    internal static void Check(string schema, JsonNode document, string file)
    {
        EvaluationResults result = Strict(schema).Evaluate(Element(document), All);
        IEnumerable<string> faults = (result.Details ?? []).Where(part => part.Errors is { Count: > 0 }).Select(part => $"{part.InstanceLocation}: {string.Join("; ", part.Errors!.Values)}");
        Assert.True(result.IsValid, $"{file}\n{string.Join('\n', faults.Take(12))}");
    }

    private JsonNode Parse(string file) => JsonNode.Parse(File.ReadAllText(_door.At(file)))!;

    private static JsonElement Element(JsonNode node) => JsonSerializer.SerializeToElement(node);

    private static JsonSchema Strict(string name)
    {
        JsonNode schema = JsonNode.Parse(File.ReadAllText(RepositoryFiles.Find($"docs/schemas/{name}-1.json")))!;
        Close(schema);
        return JsonSchema.FromText(schema.ToJsonString());
    }

    private static void Close(JsonNode? node)
    {
        if (node is JsonObject group)
        {
            foreach ((string _, JsonNode? inner) in group.ToList())
            {
                Close(inner);
            }

            if (group["properties"] is JsonObject && group["type"] is not null)
            {
                group["additionalProperties"] = false;
            }
        }
        else if (node is JsonArray list)
        {
            foreach (JsonNode? inner in list)
            {
                Close(inner);
            }
        }
    }
}
