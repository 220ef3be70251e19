using Dapper;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    /// <summary>The numbers of the last changes, all from one moment.</summary>
    public RecordChanges Changes() => Read(connection =>
    {
        using SqliteTransaction snapshot = connection.BeginTransaction(deferred: true);
        Dictionary<long, long> Numbers(string sql) => connection.Query<(long Of, long Number)>(sql, transaction: snapshot).ToDictionary(row => row.Of, row => row.Number);
        return new RecordChanges(
            connection.ExecuteScalar<long>("SELECT number FROM last_change", transaction: snapshot),
            Numbers("SELECT plant_id, number FROM plant_change"),
            Numbers("SELECT place_id, number FROM weather_change"),
            [.. connection.Query<(long Id, long PlaceId, string Species)>(
                $"SELECT plant.id, plant.place_id, plant.species FROM plant WHERE plant.species IS NOT NULL AND {IsUntreated}", transaction: snapshot)
                .Select(row => new UntreatedPlant(row.Id, row.PlaceId, row.Species))]);
    });

    // Another record took this one's place: whatever was kept of any of its plants holds no more, so no number may be an old one.
    private static void TellAllChanged(SqliteTransaction transaction, long lastBefore) => transaction.Connection!.Execute(
        """
        UPDATE last_change SET number = max(number, @lastBefore) + 1;
        INSERT OR REPLACE INTO plant_change SELECT plant.id, last_change.number FROM plant CROSS JOIN last_change;
        INSERT OR REPLACE INTO weather_change SELECT place.id, last_change.number FROM place CROSS JOIN last_change;
        """,
        new { lastBefore }, transaction);
}
