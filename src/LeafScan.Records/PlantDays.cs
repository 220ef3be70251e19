using Dapper;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

/// <summary>
/// The sums per plant and walk that the list of plants shows (table plant_day). Each change of photos brings them up to date in its own
/// transaction; the integrity check makes them anew and compares.
/// </summary>
internal static class PlantDays
{
    private const string Sums = """
        SELECT photo.plant_id AS plant_id, walk.walked_on AS walked_on, coalesce(reading.kind, photo.kind) AS kind, count(DISTINCT photo.id) AS photos, count(leaf.id) AS leaves, coalesce(sum(leaf.damage), 0) AS damage_sum
        FROM photo JOIN walk ON walk.id = photo.walk_id
        LEFT JOIN reading ON reading.photo_id = photo.id AND reading.is_current = 1
        LEFT JOIN leaf ON leaf.reading_id = reading.id
        WHERE photo.plant_id IS NOT NULL AND photo.deleted_utc IS NULL
        """;

    /// <summary>What each plant's series is made of, plant_id and kind: leaves where it has any, else twigs, else whole plants. Plants of which nothing was measured are left out.</summary>
    public const string KindsOfPlants = """
        SELECT plant_id, CASE min(CASE kind WHEN 'leaf' THEN 0 WHEN 'twig' THEN 1 ELSE 2 END) WHEN 0 THEN 'leaf' WHEN 1 THEN 'twig' ELSE 'plant' END AS kind
        FROM plant_day WHERE leaves > 0 GROUP BY plant_id
        """;

    /// <summary>The same of some plants, with the last day on which there is a leaf of that kind: plant_id, kind and last_on. One pass, nothing sorted.</summary>
    /// <param name="plants">A condition on plant_id.</param>
    public static string KindAndLastDay(string plants) => $"""
        SELECT plant_id, CASE WHEN leaf_on IS NOT NULL THEN 'leaf' WHEN twig_on IS NOT NULL THEN 'twig' ELSE 'plant' END AS kind, coalesce(leaf_on, twig_on, plant_on) AS last_on
        FROM (
            SELECT plant_id, max(CASE kind WHEN 'leaf' THEN walked_on END) AS leaf_on, max(CASE kind WHEN 'twig' THEN walked_on END) AS twig_on, max(walked_on) AS plant_on
            FROM plant_day WHERE leaves > 0 AND {plants} GROUP BY plant_id)
        """;

    /// <summary>
    /// Of each plant in one pass: its kind as above, null where nothing was measured; walks with leaves of that kind and the last of
    /// them; photos of all kinds.
    /// </summary>
    public const string SumsOfPlants = """
        SELECT plant_id, photos,
            CASE WHEN leaf_walks > 0 THEN 'leaf' WHEN twig_walks > 0 THEN 'twig' WHEN other_walks > 0 THEN 'plant' END AS kind,
            CASE WHEN leaf_walks > 0 THEN leaf_walks WHEN twig_walks > 0 THEN twig_walks ELSE other_walks END AS walks,
            CASE WHEN leaf_walks > 0 THEN leaf_on WHEN twig_walks > 0 THEN twig_on ELSE other_on END AS last_on
        FROM (
            SELECT plant_id, sum(photos) AS photos,
                sum(leaves > 0 AND kind = 'leaf') AS leaf_walks, max(CASE WHEN leaves > 0 AND kind = 'leaf' THEN walked_on END) AS leaf_on,
                sum(leaves > 0 AND kind = 'twig') AS twig_walks, max(CASE WHEN leaves > 0 AND kind = 'twig' THEN walked_on END) AS twig_on,
                sum(leaves > 0 AND kind = 'plant') AS other_walks, max(CASE WHEN leaves > 0 AND kind = 'plant' THEN walked_on END) AS other_on
            FROM plant_day GROUP BY plant_id)
        """;

    /// <summary>Adds a new photo.</summary>
    public static void Add(SqliteTransaction transaction, long plantId, long walkId, string kind, int leaves, double damageSum)
        => transaction.Connection!.Execute(
            """
            INSERT INTO plant_day (plant_id, walked_on, kind, photos, leaves, damage_sum) SELECT @plantId, walked_on, @kind, 1, @leaves, @damageSum FROM walk WHERE id = @walkId
            ON CONFLICT (plant_id, walked_on, kind) DO UPDATE SET photos = photos + 1, leaves = leaves + excluded.leaves, damage_sum = damage_sum + excluded.damage_sum
            """,
            new { plantId, walkId, kind, leaves, damageSum }, transaction);

    /// <summary>Makes the sums of a plant on the day of a walk anew.</summary>
    public static void Renew(SqliteTransaction transaction, long? plantId, long walkId)
    {
        if (plantId is null)
        {
            return;
        }

        var key = new { plantId, walkId };
        SqliteConnection connection = transaction.Connection!;
        connection.Execute("DELETE FROM plant_day WHERE plant_id = @plantId AND walked_on = (SELECT walked_on FROM walk WHERE id = @walkId)", key, transaction);
        connection.Execute($"INSERT INTO plant_day {Sums} AND photo.plant_id = @plantId AND photo.walk_id = @walkId GROUP BY walk.walked_on, 3", key, transaction);
    }

    /// <summary>Makes the sums of the plant and walk of a photo anew.</summary>
    public static void RenewOf(SqliteTransaction transaction, long photoId)
    {
        Row.OfPhoto? photo = transaction.Connection!.QuerySingleOrDefault<Row.OfPhoto>(
            "SELECT plant_id AS PlantId, walk_id AS WalkId FROM photo WHERE id = @photoId", new { photoId }, transaction);
        if (photo is not null)
        {
            Renew(transaction, photo.PlantId, photo.WalkId);
        }
    }

    /// <summary>Makes all sums anew.</summary>
    public static void RenewAll(SqliteTransaction transaction)
        => transaction.Connection!.Execute($"DELETE FROM plant_day; INSERT INTO plant_day {Sums} GROUP BY photo.plant_id, walk.walked_on, 3", transaction: transaction);

    /// <summary>Sums that do not fit the photos, in words.</summary>
    public static IEnumerable<string> Faults(SqliteConnection connection) => connection.Query<string>(
        $"""
        WITH wanted AS ({Sums} GROUP BY photo.plant_id, walk.walked_on, 3)
        SELECT 'the sums of plant ' || plant_id || ' on ' || walked_on || ' do not fit its photos' FROM (
            SELECT wanted.plant_id, wanted.walked_on FROM wanted LEFT JOIN plant_day AS kept ON kept.plant_id = wanted.plant_id AND kept.walked_on = wanted.walked_on AND kept.kind = wanted.kind
            WHERE kept.photos IS NOT wanted.photos OR kept.leaves IS NOT wanted.leaves OR abs(kept.damage_sum - wanted.damage_sum) > 1e-6
            UNION ALL
            SELECT kept.plant_id, kept.walked_on FROM plant_day AS kept LEFT JOIN wanted ON kept.plant_id = wanted.plant_id AND kept.walked_on = wanted.walked_on AND kept.kind = wanted.kind
            WHERE wanted.plant_id IS NULL)
        """);
}
