using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using LeafScan.Cli.Tests.Support;

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
