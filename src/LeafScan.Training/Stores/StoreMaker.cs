using System.Globalization;
using LeafScan.Records;
using Microsoft.Data.Sqlite;

namespace LeafScan.Training.Stores;

/// <summary>
/// Makes a large invented record: one nursery, plants in blocks of a hundred, a walk a week, one photo a leaf, care and taps on every plant,
/// one plant in twenty left untreated. The rows go in by SQL, because half a million photos through the door would take minutes; the
/// record's own integrity check looks at the result.
/// </summary>
internal static class StoreMaker
{
    /// <summary>Plants of one block.</summary>
    public const int PlantsOfBlock = 100;

    private static readonly string[] Species = ["Euonymus alatus", "Picea glauca", "Buxus sempervirens", "Juniperus communis"];

    /// <summary>Makes the record in an empty folder.</summary>
    public static void Make(string folder, StoreSize size)
    {
        using (RecordStore store = RecordStore.Open(folder, TimeProvider.System))
        {
            Place place = store.FindOrAddPlace("Hill nursery");
            for (int walk = 0; walk < size.Walks; walk++)
            {
                store.FindOrAddWalk(place.Id, StoreSize.DayOf(walk));
            }

            store.AddWeather(place.Id, [.. Enumerable.Range(0, (size.Walks * 7) + 30).Select(day => new WeatherDay(StoreSize.DayOf(0).AddDays(day - 21), 12, 26, "invented"))]);
        }

        using var connection = new SqliteConnection($"Data Source={Path.Combine(folder, RecordStore.FileName)};Pooling=False;Foreign Keys=True");
        connection.Open();
        using SqliteTransaction transaction = connection.BeginTransaction();
        foreach (string sql in Rows(size))
        {
            using SqliteCommand command = connection.CreateCommand();
            command.Transaction = transaction;
            command.CommandTimeout = 0;
#pragma warning disable CA2100 // Numbers of our own only.
            command.CommandText = sql;
#pragma warning restore CA2100
            command.ExecuteNonQuery();
        }

        transaction.Commit();
    }

    // Photos are numbered walk by walk, as they come in a real season: the leaves of one plant lie far apart in the file.
    private static IEnumerable<string> Rows(StoreSize size)
    {
        const string now = "'2026-09-30T00:00:00.000Z'";
        int plants = size.Plants, leaves = size.Leaves;
        string points = string.Join(',', Enumerable.Range(0, size.OutlinePoints).Select(i => string.Create(CultureInfo.InvariantCulture, $"[{1000 + (i * 7)},{2000 - (i * 3)}]")));
        string specks = string.Join(',', Enumerable.Range(0, size.Specks).Select(i => string.Create(CultureInfo.InvariantCulture, $"[{1000 + (i * 3.1):0.0},{1500 + (i * 1.7):0.0},6.8]")));
        yield return $"{Count(plants / PlantsOfBlock)} INSERT INTO block SELECT n + 1, 1, 'Block ' || (n + 1), 'BLOCK ' || (n + 1), {now} FROM counted";
        string species = string.Join(' ', Species.Select((name, i) => $"WHEN {i} THEN '{name}'"));
        yield return $"""
            {Count(plants)} INSERT INTO plant (id, place_id, block_id, code, code_key, species, created_utc, is_check)
            SELECT n + 1, 1, n / {PlantsOfBlock} + 1, printf('P%05d', n + 1), printf('P%05d', n + 1), CASE n % 4 {species} END, {now}, n % 20 = 0 FROM counted
            """;
        yield return $"""
            {Count(plants * leaves * size.Walks)} INSERT INTO photo (id, sha256, file_name, path_seen, byte_length, format, width_px, height_px, taken, kind, walk_id, plant_id, plant_by, leaf_age, leaf_tag, recorded_utc)
            SELECT n + 1, printf('%064x', n + 1), printf('IMG_%07d.jpg', n + 1), printf('/photos/IMG_%07d.jpg', n + 1), 3000000, 'jpeg', 4000, 3000, NULL, 'leaf',
                n / {plants * leaves} + 1, n / {leaves} % {plants} + 1, 'byFolder', 'old', CASE WHEN n % {leaves} < 5 THEN CAST(n % {leaves} + 1 AS TEXT) END, {now} FROM counted
            """;
        yield return $"INSERT INTO reading (id, photo_id, is_current, tool_version, options_hash, measured_utc, kind, flags) SELECT id, id, 1, '0.1.0', '0123456789abcdef', {now}, 'leaf', '[\"noScale\"]' FROM photo";

        // Damage that grows with the walks and differs by plant and leaf, without two alike.
        yield return """
            INSERT INTO leaf SELECT id, id, 0, 500000.5, NULL, 1 - d, d, 0, 0, 0, 0, d, max(0, d - 0.02), d + 0.02, 400, NULL, 6.8, '[]'
            FROM (SELECT id, 0.02 + 0.01 * walk_id + 0.0001 * (plant_id % 100) + 0.00000001 * id AS d FROM photo)
            """;
        yield return $"INSERT INTO leaf_shape SELECT id, '[{points}]', '[{specks}]', '[]' FROM leaf";
        yield return """
            INSERT INTO plant_day SELECT plant_id, walked_on, 'leaf', count(*), count(*), sum(damage) FROM photo JOIN walk ON walk.id = walk_id JOIN leaf ON leaf.id = photo.id
            GROUP BY plant_id, walked_on
            """;
        string middle = StoreSize.DayOf(size.Walks / 2).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        yield return $"INSERT INTO care (plant_id, done_on, what, recorded_utc) SELECT id, '{middle}', 'rinse', {now} FROM plant WHERE is_check = 0";
        yield return $"INSERT INTO tap (plant_id, tapped_on, strikes, mites_by_lens, recorded_utc) SELECT plant.id, walked_on, 5, plant.id % 7, {now} FROM plant CROSS JOIN walk";
    }

    private static string Count(int rows) => $"WITH RECURSIVE counted (n) AS (SELECT 0 UNION ALL SELECT n + 1 FROM counted WHERE n + 1 < {rows.ToString(CultureInfo.InvariantCulture)})";
}

/// <summary>Size of an invented record.</summary>
internal sealed record StoreSize
{
    /// <summary>Plants, a multiple of a hundred.</summary>
    public int Plants { get; init; } = 2000;

    /// <summary>Walks, one a week.</summary>
    public int Walks { get; init; } = 24;

    /// <summary>Leaves of a plant on each walk.</summary>
    public int Leaves { get; init; } = 10;

    /// <summary>Corners of each outline.</summary>
    public int OutlinePoints { get; init; } = 40;

    /// <summary>Specks of each leaf.</summary>
    public int Specks { get; init; } = 40;

    /// <summary>Day of a walk, counted from 0.</summary>
    public static DateOnly DayOf(int walk) => new DateOnly(2026, 4, 7).AddDays(7 * walk);
}
