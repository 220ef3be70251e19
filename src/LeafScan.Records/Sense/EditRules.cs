namespace LeafScan.Records.Sense;

/// <summary>What an edit may not be: each that stands must be one that undo can take back.</summary>
internal static class EditRules
{
    private const string Stands = "undone_utc IS NULL AND";

    // A table that edits are kept of, and what its row_id names.
    private static readonly (string Table, string Rows)[] Known =
    [
        ("plant", "plant"), ("photo", "photo"), ("place", "place"), ("weather", "place"), ("client", "client"), ("note_text", "note_text"), ("own_threshold", "own_threshold"),
        ("tap_sheet", "tap_sheet"), ("tap", "tap"), ("care", "care"),
    ];

    /// <summary>All of them.</summary>
    public static IEnumerable<SenseRule> All =>
    [
        new("edit", "is of nothing that this program changes", $"table_name NOT IN ({string.Join(", ", Known.Select(known => $"'{known.Table}'"))})"),
        .. Known.Select(known => new SenseRule(
            "edit", "points to a row that is not there", $"table_name = '{known.Table}' AND NOT EXISTS (SELECT 1 FROM {known.Rows} WHERE {known.Rows}.id = row_id)")),
        new("edit", "changes what this program does not change", $"{Stands} NOT ({Fields})"),
        new("edit", "keeps no old value where there must be one",
            $"{Stands} old_value IS NULL AND (field IN ('bin', 'plant_by', 'is_check', 'done_on', 'tapped_on', 'region') OR field = 'what' AND table_name = 'care' OR table_name = 'weather')"),
        new("edit", "belongs to no change", "change_id IS NULL OR change_id NOT BETWEEN 1 AND id"),
        Old("field = 'bin'", "old_value IN ('yes', 'no')"),
        Old("field IN ('date_in', 'done_on', 'tapped_on')", "date(old_value) IS old_value"),
        Old("field = 'done_at'", "strftime('%H:%M', old_value) IS old_value"),
        Old("field = 'is_check'", "old_value IN ('0', '1')"),
        Old("field = 'mite_season'", "old_value IN ('warm', 'cool', 'boxwood')"),
        Old("field = 'leaf_age' OR field GLOB 'leaf * age'", "old_value IN ('old', 'new')"),
        Old("field = 'plant_by'", "old_value IN ('byFolder', 'byFileName', 'byTag', 'byHand', 'unknown')"),
        Old("field = 'what' AND table_name = 'care'", "old_value IN ('rinse', 'soap', 'oil', 'predators', 'miticide', 'pruning', 'nothing')"),
        Old("field = 'country'", "old_value GLOB '[A-Z][A-Z]'"),
        Old("field = 'damage_at_delivery'", $"{IsNumber} AND CAST(old_value AS REAL) BETWEEN 0 AND 1"),
        Old("table_name = 'weather' AND field GLOB '* *_c'", $"{IsNumber} AND CAST(old_value AS REAL) BETWEEN -90 AND 60"),
        Old("table_name = 'own_threshold' AND field = 'value'", IsNumber),
        Old("table_name = 'tap' AND field IN ('mites_by_lens', 'mites_by_photo', 'predators', 'strikes', 'branches', 'sheet_width_mm', 'sheet_height_mm', 'hours_since_wet')",
            $"{IsNumber} AND CAST(old_value AS REAL) BETWEEN 0 AND 1000000"),
    ];

    // What undo knows how to put back.
    private static string Fields =>
        $"(table_name, field) IN (VALUES {string.Join(", ", RecordStore.PlainFields.Select(plain => $"('{plain.Table}', '{plain.Field}')"))}, ('photo', 'plant'), ('plant', 'block'), ('place', 'client'))"
        + " OR field = 'bin' AND table_name IN ('photo', 'tap', 'care')"
        + " OR table_name = 'weather' AND (field GLOB '????-??-?? low_c' OR field GLOB '????-??-?? high_c' OR field GLOB '????-??-?? source')"
        + " OR table_name = 'photo' AND (field GLOB 'leaf [0-9]* age' OR field GLOB 'leaf [0-9]* tag' OR field GLOB 'correction [0-9]*')"
        + " OR table_name = 'tap_sheet' AND field GLOB 'speck [0-9]*'";

    private const string IsNumber = "old_value GLOB '*[0-9]*' AND old_value NOT GLOB '*[^0-9.eE+-]*'";

    private static SenseRule Old(string which, string isSound) =>
        new("edit", "keeps an old value that makes no sense", $"{Stands} old_value IS NOT NULL AND ({which}) AND NOT ({isSound})");
}
