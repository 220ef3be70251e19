using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Fuzz;

/// <summary>
/// Puts one value that cannot be true into the tables of a record: a share above 1, an interval upside down, a day that is none. Nothing is
/// damaged and the checksums are made right afterwards, so only somebody who looks at the values can tell.
/// </summary>
internal sealed class SenselessValues(IReadOnlyDictionary<string, IReadOnlyList<string>> columns)
{
    private static readonly JsonSerializerOptions OneLine = new() { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    private static readonly string[] Shares = ["share_sound", "share_stippled", "share_yellowed", "share_browned", "share_chewed", "share_unassessed", "damage", "damage_low", "damage_high"];

    private static readonly string[] CrownShares = ["thinning", "thinning_low", "thinning_high", "fall_colour", "greenness", "new_growth"];

    private static readonly (string Table, string Column)[] Days = [("walk", "walked_on"), ("care", "done_on"), ("tap", "tapped_on"), ("weather", "day"), ("plant", "date_in"), ("note_text", "for_day")];

    private static readonly (string Table, string Column)[] Times =
        [("photo", "recorded_utc"), ("reading", "measured_utc"), ("edit", "edited_utc"), ("plant", "created_utc"), ("care", "recorded_utc"), ("weather", "recorded_utc"), ("note_text", "written_utc")];

    private static readonly (string Table, string Column)[] Counts = [("leaf", "speck_count"), ("tap", "mites_by_lens"), ("tap", "strikes"), ("photo", "width_px"), ("photo", "byte_length")];

    private static readonly (string Table, string Column)[] References =
    [
        ("photo", "walk_id"), ("photo", "plant_id"), ("reading", "photo_id"), ("leaf", "reading_id"), ("leaf_shape", "leaf_id"), ("leaf_note", "photo_id"), ("plant", "block_id"),
        ("care", "plant_id"), ("tap", "plant_id"), ("weather", "place_id"), ("edit", "row_id"), ("note_text", "plant_id"), ("plant", "place_id"), ("walk", "place_id"),
    ];

    private static readonly string[] Outlines =
        ["[]", "[[1,2],[3,4]]", "[[1,2],[3],[5,6]]", "[[0,0],[900000,0],[0,900000]]", "[[0.5,0],[9,0],[0,9]]", "{}", "[[\"a\",0],[9,0],[0,9]]", "null"];

    private static readonly string[] Specks = ["[[1,2]]", "[[-90000,5,7]]", "[[5,5,-7]]", "{}", "7", "[[1,2,99999999]]", "[null]"];

    private static readonly string[] Causes = ["[{}]", "[{\"cause\":\"miteStippling\",\"score\":7,\"because\":[]}]", "[1]", "{}", "[{\"cause\":\"\",\"score\":0.5,\"because\":[]}]"];

    /// <summary>Changes one row, or two that belong together.</summary>
    /// <param name="entries">The tables' entries by name; changed in place.</param>
    /// <param name="random">Chance.</param>
    /// <returns>What was done.</returns>
    public string Put(Dictionary<string, byte[]> entries, Random random) => random.Next(19) switch
    {
        0 => Set(entries, random, "leaf", random.Pick(Shares), random.Pick<JsonNode?>([-0.1, 1.5, 100, -1e-3, 1e300])),
        1 => Change(entries, random, "leaf", (at, row) => (row[at("damage_low")], row[at("damage_high")]) = (Plus(row[at("damage_high")], 0.01), Plus(row[at("damage_low")], 0)), "an interval is upside down"),
        2 => Change(entries, random, "leaf", (at, row) => (row[at("damage_low")], row[at("damage_high")]) = (Plus(row[at("damage_high")], 0.05), Plus(row[at("damage_high")], 0.05)), "a damage lies outside its interval"),
        3 => Change(entries, random, "leaf", (at, row) => (row[at("damage")], row[at("damage_low")], row[at("damage_high")]) = (Plus(row[at("damage")], 0.05), 0, 1), "a damage is not that of its shares"),
        4 => Set(entries, random, random.Pick(Days), random.Pick<JsonNode?>(["2026-02-30", "2026-13-01", "9998-01-01", "0001-01-01", "1066-10-14", "2026-6-3", "2026-00-00"])),
        5 => Set(entries, random, random.Pick(Times), random.Pick<JsonNode?>(["2026-06-31T00:00:00.000Z", "9998-01-01T00:00:00.000Z", "yesterday", "2026-06-03", "2026-06-03T25:00:00.000Z", ""])),
        6 => Set(entries, random, random.Pick(Counts), random.Pick<JsonNode?>([-1, -400, 3_000_000_000, 9_000_000_000_000_000_000, 2.5])),
        7 => Set(entries, random, random.Pick(References), random.Pick<JsonNode?>([0, -1, 987_654, 9_000_000_000_000_000_000])),
        8 => WrongScale(entries, random),
        9 => Change(entries, random, "weather", (at, row) => (row[at("low_c")], row[at("high_c")]) = (row[at("high_c")]!.GetValue<double>() + 1, row[at("low_c")]!.GetValue<double>()), "a lowest temperature above the highest"),
        10 => Change(entries, random, "weather", (at, row) => row[at("high_c")] = 68 + (row[at("high_c")]!.GetValue<double>() * 1.8), "°F among °C"),
        11 => Set(entries, random, "leaf_shape", "outline", random.Pick(Outlines)),
        12 => Set(entries, random, "leaf_shape", "speck_centres", random.Pick(Specks)),
        13 => Set(entries, random, "leaf_shape", "causes", random.Pick(Causes)),
        14 => Set(entries, random, random.Pick([("photo", "kind"), ("reading", "kind"), ("care", "what"), ("plant", "mite_season"), ("photo", "plant_by")]), random.Pick<JsonNode?>(["banana", "Leaf", ""])),
        15 => Set(entries, random, random.Pick([("reading", "flags"), ("leaf", "flags")]), random.Pick<JsonNode?>(["{}", "[1]", "7", "[null]", "noScale"])),
        16 => Set(entries, random, "foliage", random.Pick(CrownShares), random.Pick<JsonNode?>([-0.1, 1.5, 100, 1e300])),
        17 => Set(entries, random, "foliage", random.Pick(["worst_side", "worst_height", "sectors"]), random.Pick<JsonNode?>(["behind", "[{}]", "7", ""])),
        _ => Set(entries, random, random.Pick([("plant", "code_key"), ("plant", "code"), ("place", "name_key"), ("block", "name_key"), ("place", "name"), ("edit", "field"), ("edit", "table_name")]),
            random.Pick<JsonNode?>(["other", "\u0007", " "])),
    };

    private string WrongScale(Dictionary<string, byte[]> entries, Random random)
    {
        // 10 pixels per mm, and the area in cm² or in square inches under the name of mm².
        double wrong = random.Pick([0.01, 0.00155, 100]);
        int line = ChangeOne(entries, random, "leaf", (at, row) => row[at("area_mm2")] = row[at("area_px")]!.GetValue<double>() / 100 * wrong);
        ChangeOne(entries, random, "reading", (at, row) => row[at("pixels_per_mm")] = 10.0, line);
        return "a value makes no sense: an area in another unit";
    }

    private string Set(Dictionary<string, byte[]> entries, Random random, (string Table, string Column) which, JsonNode? value) => Set(entries, random, which.Table, which.Column, value);

    private string Set(Dictionary<string, byte[]> entries, Random random, string table, string column, JsonNode? value) =>
        Change(entries, random, table, (at, row) => row[at(column)] = value, $"{table}.{column}");

    private string Change(Dictionary<string, byte[]> entries, Random random, string table, Action<Func<string, int>, JsonArray> change, string what)
    {
        ChangeOne(entries, random, table, change);
        return $"a value makes no sense: {what}";
    }

    private int ChangeOne(Dictionary<string, byte[]> entries, Random random, string table, Action<Func<string, int>, JsonArray> change, int line = -1)
    {
        string[] lines = Encoding.UTF8.GetString(entries[table + ".jsonl"]).Split('\n', StringSplitOptions.RemoveEmptyEntries);
        line = line < 0 ? random.Next(lines.Length) : line;
        JsonArray row = JsonNode.Parse(lines[line])!.AsArray();
        change(column => columns[table].ToList().IndexOf(column), row);
        lines[line] = row.ToJsonString(OneLine);
        entries[table + ".jsonl"] = Encoding.UTF8.GetBytes(string.Join('\n', lines) + "\n");
        return line;
    }

    private static double Plus(JsonNode? value, double more) => double.Parse(value!.ToJsonString(), CultureInfo.InvariantCulture) + more;
}
