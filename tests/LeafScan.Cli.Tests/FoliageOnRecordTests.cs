using System.Text.Json;
using System.Text.Json.Nodes;
using LeafScan.Cli.Tests.Support;
using LeafScan.Records;

namespace LeafScan.Cli.Tests;

/// <summary>Gaps, the worst side and specks per cm of needle in series, exports and notes; for leaves nothing of it.</summary>
public sealed class FoliageOnRecordTests : IDisposable
{
    private static readonly DateOnly June = new(2026, 6, 18), July = new(2026, 7, 20);

    private readonly TestDoor _door = new();

    public FoliageOnRecordTests()
    {
        using RecordStore store = RecordStore.Open(_door.DataFolder, TimeProvider.System);
        SomeRecord.WholePlant(store, "S1", June, null);
        SomeRecord.WholePlant(store, "S1", July, 0.12);
        SomeRecord.WholePlant(store, "S1", July, 0.14, "none", 1);
        SomeRecord.Twig(store, "J1", June, 1.5);
        SomeRecord.Twig(store, "J1", July, 2.5);
        SomeRecord.Twig(store, "J1", July, null, 1);
        SomeRecord.Photo(store, "EU-1", July, 0.1);
        store.AddCare(store.FindPlants("S1")[0].Id, new DateOnly(2026, 7, 1), CareKind.Rinse, "all over");
    }

    [Fact]
    public async Task A_series_of_whole_plants_has_gaps_and_the_worst_side_and_a_dash_where_they_were_not_kept()
    {
        string[] lines = (await _door.RunAsync("series", "S1")).Out.Split('\n');

        Assert.Matches(@"chewed +gaps +90 % range +worst side +whole plants with 5 % or more", lines[1]);
        Assert.Matches(@"^2026-06-18 .* - +- +1 of 1", lines.Single(line => line.StartsWith("2026-06-18", StringComparison.Ordinal)));
        Assert.Matches(@"^2026-07-20 .* 13\.0 +11\.0 to 15\.0 +left 1 of 2 +2 of 2", lines.Single(line => line.StartsWith("2026-07-20", StringComparison.Ordinal)));
        Assert.EndsWith("rinse: all over", lines.Single(line => line.StartsWith("2026-07-01", StringComparison.Ordinal)), StringComparison.Ordinal);
        Assert.Contains("Gaps are of the crown; left and right are those of the photo.", lines);
        Assert.DoesNotContain(lines, line => line.Contains("specks per cm", StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public async Task A_series_of_twigs_has_specks_per_cm_and_one_of_leaves_has_neither()
    {
        string twigs = (await _door.RunAsync("series", "J1")).Out;
        Assert.Matches(@"chewed +specks per cm +twigs with", twigs);
        Assert.Matches(@"2026-06-18 .* 1\.5 +1 of 1", twigs);
        Assert.Matches(@"2026-07-20 .* 2\.5 +2 of 2", twigs);
        Assert.Contains("at least so many", twigs, StringComparison.Ordinal);
        string leaves = (await _door.RunAsync("series", "EU-1")).Out;
        Assert.DoesNotContain("gaps", leaves, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("worst", leaves, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("per cm", leaves, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task Documents_have_them_as_their_schemas_say_and_those_of_leaves_are_as_before()
    {
        JsonElement crown = (await Document("series", "series", "S1")).GetProperty("walks")[1].GetProperty("figures").GetProperty("crown");
        Assert.Equal((2, 0.13, 0.11, 0.15), (crown.GetProperty("views").GetInt32(), crown.GetProperty("thinning").GetDouble(), crown.GetProperty("thinningLow").GetDouble(), crown.GetProperty("thinningHigh").GetDouble()));
        Assert.Equal(["left", "none"], crown.GetProperty("worstSides").EnumerateArray().Select(side => side.GetString()));
        JsonElement before = (await Document("series", "series", "S1")).GetProperty("walks")[0].GetProperty("figures");
        Assert.False(before.TryGetProperty("crown", out _));
        JsonElement needles = (await Document("series", "series", "J1")).GetProperty("walks")[1].GetProperty("figures").GetProperty("needles");
        Assert.Equal((1, 2.5), (needles.GetProperty("twigs").GetInt32(), needles.GetProperty("specksPerCm").GetDouble()));
        JsonElement leaf = (await Document("series", "series", "EU-1")).GetProperty("walks")[0].GetProperty("figures");
        Assert.Equal(
            ["leaves", "leavesLeftOut", "photos", "damage", "damageLow", "damageHigh", "shares", "affectedLeaves", "affectedShare", "affectedLow", "affectedHigh"],
            leaf.EnumerateObject().Select(property => property.Name));
        Assert.True((await Document("compare", "compare", "S1", "--from", "2026-06", "--to", "2026-07")).GetProperty("plants")[0].GetProperty("later").TryGetProperty("crown", out _));
    }

    [Fact]
    public async Task Exports_have_them_in_their_last_columns()
    {
        string[] series = await Csv("series");
        Assert.EndsWith(",affectedHigh,thinning,thinningLow,thinningHigh,worstSides,worstHeights,fallColour,specksPerCmOfNeedle", series[0], StringComparison.Ordinal);
        Assert.EndsWith(",0.13,0.11,0.15,left none,low low,0,", series.Single(row => row.Contains(",S1,", StringComparison.Ordinal) && row.Contains("2026-07-20", StringComparison.Ordinal)), StringComparison.Ordinal);
        Assert.EndsWith(",,,,,,,", series.Single(row => row.Contains(",S1,", StringComparison.Ordinal) && row.Contains("2026-06-18", StringComparison.Ordinal)), StringComparison.Ordinal);
        Assert.EndsWith(",,,,,,,1.5", series.Single(row => row.Contains(",J1,", StringComparison.Ordinal) && row.Contains("2026-06-18", StringComparison.Ordinal)), StringComparison.Ordinal);
        Assert.EndsWith(",,,,,,,", series.Single(row => row.Contains(",EU-1,", StringComparison.Ordinal)), StringComparison.Ordinal);
        string[] readings = await Csv("readings");
        Assert.EndsWith(",modelOfReading,thinning,thinningLow,thinningHigh,worstSide,worstHeight,fallColour,greenness,newGrowth,needleLengthMm,specksPerCmOfNeedle", readings[0], StringComparison.Ordinal);
        Assert.Contains(readings, row => row.EndsWith(",0.12,0.1,0.14,left,low,0,,,,", StringComparison.Ordinal));
        Assert.Contains(readings, row => row.EndsWith(",,,,,,,,,20,1.5", StringComparison.Ordinal));
        Assert.EndsWith(",,,,,,,,,,", readings.Single(row => row.Contains(",EU-1,", StringComparison.Ordinal)), StringComparison.Ordinal);
        foreach ((string table, string schema) in new[] { ("series", "series-table"), ("readings", "readings") })
        {
            Ran ran = await _door.RunAsync("export", table, "--out", _door.At(table + ".json"));
            Assert.True(ran.Code == ExitCode.Done, ran.ToString());
            SchemaTests.Check(schema, JsonNode.Parse(await File.ReadAllTextAsync(_door.At(table + ".json")))!, table);
        }
    }

    [Fact]
    public async Task A_client_reads_of_gaps_and_sides_of_a_plant_and_of_specks_on_needles_of_a_twig()
    {
        string plant = await Note("S1"), twig = await Note("J1"), leaf = await Note("EU-1");

        Assert.Contains("13\u00A0% of the crown is gap, very likely between 11 and 15\u00A0%; the photos differ in which side is hit hardest.", plant, StringComparison.Ordinal);
        Assert.Contains("There are at least 2.5 pale specks per cm of needle, counted on 1\u00A0twig.", twig, StringComparison.Ordinal);
        Assert.DoesNotContain("crown", twig, StringComparison.Ordinal);
        Assert.DoesNotContain("crown", leaf, StringComparison.Ordinal);
        Assert.DoesNotContain("needle", leaf, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("left", "the left side of the photo is hit hardest.")]
    [InlineData("none", "no side stands out.")]
    public async Task A_client_reads_of_one_side_or_of_none(string side, string words)
    {
        using (RecordStore store = RecordStore.Open(_door.DataFolder, TimeProvider.System))
        {
            SomeRecord.WholePlant(store, "S2", July, 0.055, side);
        }

        Assert.Contains($"5.5\u00A0% of the crown is gap, very likely between 3.5 and 7.5\u00A0%; {words}", await Note("S2"), StringComparison.Ordinal);
    }

    private async Task<string> Note(string plant)
    {
        string file = _door.At($"note-{plant}.md");
        Ran ran = await _door.RunAsync("note", plant, "--no-picture", "--out", file);
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        return await File.ReadAllTextAsync(file);
    }

    private async Task<JsonElement> Document(string schema, params string[] words)
    {
        Ran ran = await _door.RunAsync([.. words, "--json"]);
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        SchemaTests.Check(schema, JsonNode.Parse(ran.Json.GetRawText())!, string.Join(' ', words));
        return ran.Json;
    }

    private async Task<string[]> Csv(string table)
    {
        Ran ran = await _door.RunAsync("export", table, "--out", _door.At(table + ".csv"));
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        return (await File.ReadAllTextAsync(_door.At(table + ".csv"))).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
    }

    public void Dispose() => _door.Dispose();
}
