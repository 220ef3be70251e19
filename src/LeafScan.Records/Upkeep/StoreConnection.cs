using System.Globalization;
using Dapper;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records.Upkeep;

/// <summary>The one place for connection text and pragmas.</summary>
internal static class StoreConnection
{
    public static string Text(string file, SqliteOpenMode mode, TimeSpan lockWait) => new SqliteConnectionStringBuilder
    {
        DataSource = file,
        Mode = mode,
        ForeignKeys = true,

        // In this library the wait for a lock is the command's time limit; SQLite's own busy_timeout is not used.
        DefaultTimeout = Math.Max(1, (int)Math.Ceiling(lockWait.TotalSeconds)),

        // A pooled connection would keep the file open after Dispose.
        Pooling = false,
    }.ToString();

    /// <summary>Write-ahead mode; a lost power supply may cost the last moments but never the file's soundness.</summary>
    public static void Prepare(SqliteConnection connection)
    {
        string? mode = connection.ExecuteScalar<string>("PRAGMA journal_mode = WAL");
        if (!string.Equals(mode, "wal", StringComparison.OrdinalIgnoreCase))
        {
            throw new InvalidOperationException(string.Create(CultureInfo.InvariantCulture, $"SQLite stayed in journal mode {mode}."));
        }

        connection.Execute("PRAGMA synchronous = NORMAL");
    }
}
