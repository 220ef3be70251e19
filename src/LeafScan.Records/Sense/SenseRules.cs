using LeafScan.Leaves.Kinds;

namespace LeafScan.Records.Sense;

/// <summary>
/// The rules that SQLite can look at by itself. What the layout's own checks refuse (shares outside 0..1 or that do not add up, an interval
/// upside down, counts below zero, rows that point to nothing) is not said again.
/// </summary>
internal static class SenseRules
{
    // Bounds that nothing measured or counted comes near: beyond them a figure is of another kind, or damaged. Our own choice.
    private const string MostCounted = "1000000", MostSpecks = "10000000", LongestSidePx = "100000", MostBytes = "2000000000", LastId = "9007199254740991";

    // A plant may have stood in a garden long before the record began.
    private const string EarliestDateIn = "'1900-01-01'", EarliestDay = "'2000-01-01'";

    private static readonly string Kinds = string.Join(", ", PhotoKinds.All.Select(kind => $"'{kind.Name()}'"));

    /// <summary>All of them.</summary>
    public static IReadOnlyList<SenseRule> All { get; } =
    [
        .. Numbers("block", "care", "client", "correction", "edit", "leaf", "note_text", "own_threshold", "photo", "place", "plant", "reading", "refused_file", "run", "tap", "tap_correction", "tap_sheet", "walk"),
        .. Day("walk", "walked_on", EarliestDay), .. Day("care", "done_on", EarliestDay), .. Day("tap", "tapped_on", EarliestDay), .. Day("weather", "day", EarliestDay),
        .. Day("note_text", "for_day", EarliestDay), .. Day("plant", "date_in", EarliestDateIn),
        .. Times("block", "created_utc"), .. Times("client", "created_utc"), .. Times("place", "created_utc"), .. Times("plant", "created_utc"), .. Times("walk", "recorded_utc"),
        .. Times("photo", "recorded_utc", "deleted_utc"), .. Times("reading", "measured_utc"), .. Times("refused_file", "refused_utc", "mended_utc"),
        .. Times("care", "recorded_utc", "deleted_utc"), .. Times("tap", "recorded_utc", "deleted_utc"), .. Times("tap_sheet", "read_utc"),
        .. Times("tap_correction", "made_utc", "taken_back_utc"), .. Times("correction", "made_utc", "taken_back_utc"), .. Times("edit", "edited_utc", "undone_utc"),
        .. Times("run", "started_utc", "ended_utc"), .. Times("note_text", "written_utc"), .. Times("own_threshold", "set_utc"), .. Times("weather", "recorded_utc"),

        new("plant", "stands in a block of another place", "block_id IS NOT NULL AND place_id <> (SELECT place_id FROM block WHERE block.id = block_id)"),
        new("photo", "is of a plant of another place than its walk",
            "plant_id IS NOT NULL AND (SELECT place_id FROM plant WHERE plant.id = plant_id) <> (SELECT place_id FROM walk WHERE walk.id = walk_id)"),
        new("photo", "has no reading that counts", "NOT EXISTS (SELECT 1 FROM reading WHERE photo_id = photo.id AND is_current = 1)"),
        new("photo", "is of no known kind", $"kind NOT IN ({Kinds})"),
        new("photo", "has a size that no picture has", $"width_px > {LongestSidePx} OR height_px > {LongestSidePx}"),
        new("photo", "has a length that no photo's file has", $"byte_length > {MostBytes}"),
        new("reading", "is of no known kind", $"kind NOT IN ({Kinds})"),
        new("reading", "has a scale that no photo has", "pixels_per_mm NOT BETWEEN 0.001 AND 100000"),

        new("leaf", "is not numbered among the leaves of its photo from 0 on", "ordinal >= (SELECT count(*) FROM leaf AS other WHERE other.reading_id = leaf.reading_id)"),
        new("leaf", "has no outline", "NOT EXISTS (SELECT 1 FROM leaf_shape WHERE leaf_id = leaf.id)"),
        new("leaf", "is larger than its photo", "area_px > 1.1 * (SELECT 1.0 * width_px * height_px FROM photo JOIN reading ON photo.id = photo_id WHERE reading.id = reading_id)"),
        new("leaf", "has a damage outside its own interval", "damage NOT BETWEEN damage_low - 1e-6 AND damage_high + 1e-6"),
        new("leaf", "has a damage that is not that of its shares",
            "abs((share_stippled + share_yellowed + share_browned) - damage * (1 - share_chewed - share_unassessed)) > 0.005"),
        new("leaf", "has more specks than can be counted", $"speck_count > {MostSpecks}"),
        new("leaf", "has specks wider than its photo", "speck_diameter_median_px > (SELECT max(width_px, height_px) FROM photo JOIN reading ON photo.id = photo_id WHERE reading.id = reading_id)"),

        // On a tilted sheet the scale at the leaf differs from the one in the middle, but not by so much; mm instead of cm differ by a hundred.
        new("leaf", "has an area in mm² that its scale does not give",
            "area_mm2 IS NOT NULL AND (SELECT pixels_per_mm * pixels_per_mm FROM reading WHERE reading.id = reading_id) * area_mm2 / area_px NOT BETWEEN 0.2 AND 5"),
        new("leaf", "has a density of specks that its count and area do not give",
            "speck_density_per_cm2 * area_mm2 / 100 * (1 - share_chewed - share_unassessed) NOT BETWEEN 0.95 * speck_count - 1 AND 1.05 * speck_count + 1"),

        .. FoliageRules.All,

        new("tap", "has a count, or strikes or branches, that nobody counts",
            $"max(coalesce(mites_by_lens, 0), coalesce(mites_by_photo, 0), coalesce(predators, 0), coalesce(strikes, 0), coalesce(branches, 0)) > {MostCounted}"),
        new("tap", "has a sheet of a size that no sheet has", "max(coalesce(sheet_width_mm, 1), coalesce(sheet_height_mm, 1)) > 10000"),
        new("tap", "was wet longer ago than can be told", "hours_since_wet > 100000"),
        new("care", "has a time of day that no day has", "done_at IS NOT NULL AND strftime('%H:%M', done_at) IS NOT done_at"),
        new("tap_correction", "lies outside any photo", $"abs(x) > {LongestSidePx} OR abs(y) > {LongestSidePx}"),
        new("run", "has counts below zero or beyond counting",
            $"min(coalesce(photos_added, 0), coalesce(photos_already_here, 0), coalesce(photos_refused, 0)) < 0 OR max(coalesce(photos_added, 0), coalesce(photos_already_here, 0), coalesce(photos_refused, 0)) > {MostSpecks}"),
        new("refused_file", "has a fingerprint that is none", "sha256 IS NOT NULL AND (length(sha256) <> 64 OR sha256 GLOB '*[^0-9a-f]*')"),
        .. EditRules.All,
    ];

    private static IEnumerable<SenseRule> Numbers(params string[] tables) =>
        tables.Select(table => new SenseRule(table, "has a number that this program never gives", $"id NOT BETWEEN 1 AND {LastId}"));

    private static IEnumerable<SenseRule> Day(string table, string column, string earliest) =>
    [
        new(table, "has a day that the calendar does not have", $"{column} IS NOT NULL AND date({column}) IS NOT {column}"),
        new(table, "has a day that lies far in the future or long ago", $"{column} NOT BETWEEN {earliest} AND $lastDay"),
    ];

    private static IEnumerable<SenseRule> Times(string table, params string[] columns) => columns.SelectMany(column => (SenseRule[])
    [
        new(table, "has a time that is none", $"{column} IS NOT NULL AND strftime('%Y-%m-%dT%H:%M:%fZ', {column}) IS NOT {column}"),
        new(table, "has a time that lies far in the future", $"{column} > $lastTime"),
    ]);
}
