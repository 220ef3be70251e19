using System.Globalization;
using Dapper;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records.Upkeep;

/// <summary>SQLite's own check of pages, indexes and constraints, and of every reference between tables.</summary>
internal static class IntegrityCheck
{
    /// <summary>The faults in words; empty when the store is sound.</summary>
    public static IReadOnlyList<string> Of(SqliteConnection connection)
    {
        var faults = connection.Query<string>("PRAGMA integrity_check").Where(line => line != "ok").ToList();
        foreach (LooseReference loose in connection.Query<LooseReference>(
            "SELECT \"table\" AS FromTable, rowid AS RowId, parent AS ToTable FROM pragma_foreign_key_check"))
        {
            faults.Add(string.Create(CultureInfo.InvariantCulture, $"row {loose.RowId} of {loose.FromTable} points to a missing row of {loose.ToTable}"));
        }

        // Sums over rows that point to nothing would only repeat the fault above.
        if (faults.Count == 0 && connection.ExecuteScalar<long>("SELECT count(*) FROM sqlite_schema WHERE name = 'plant_day'") > 0)
        {
            faults.AddRange(PlantDays.Faults(connection));
        }

        return faults;
    }

    /// <summary>The same for a file, opened for reading only.</summary>
    public static IReadOnlyList<string> OfFile(string file)
    {
        using var connection = new SqliteConnection(StoreConnection.Text(file, SqliteOpenMode.ReadOnly, TimeSpan.FromSeconds(5)));
        connection.Open();
        return connection.ExecuteScalar<long>("PRAGMA application_id") == RecordStore.ApplicationId ? Of(connection) : ["it is no record of LeafScan"];
    }

    private sealed class LooseReference
    {
        public string FromTable { get; init; } = "";

        public long? RowId { get; init; }

        public string ToTable { get; init; } = "";
    }
}
