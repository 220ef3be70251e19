using System.Globalization;
using Dapper;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records.Upkeep;

/// <summary>Brings a store to the newest layout. The layout's number is SQLite's user_version.</summary>
internal static class MigrationRunner
{
    public static void BringUpToDate(
        SqliteConnection connection, string folder, IReadOnlyList<Migration> migrations, TimeProvider clock, int backupsKept)
    {
        long version = Version(connection, null);
        if (version >= migrations[^1].Number)
        {
            return;
        }

        if (version > 0)
        {
            BackupFiles.TakeAutomatic(connection, folder, version, clock, backupsKept);
        }

        foreach (Migration migration in migrations)
        {
            Apply(connection, migration);
        }
    }

    private static void Apply(SqliteConnection connection, Migration migration)
    {
        using SqliteTransaction transaction = connection.BeginTransaction();

        // Looked up inside the transaction: another command may have done this step while we waited.
        if (Version(connection, transaction) >= migration.Number)
        {
            return;
        }

        connection.Execute(migration.Sql, transaction: transaction);
        connection.Execute(
            string.Create(CultureInfo.InvariantCulture, $"PRAGMA application_id = {RecordStore.ApplicationId}; PRAGMA user_version = {migration.Number};"),
            transaction: transaction);
        transaction.Commit();
    }

    private static long Version(SqliteConnection connection, SqliteTransaction? transaction)
        => connection.ExecuteScalar<long>("PRAGMA user_version", transaction: transaction);
}
