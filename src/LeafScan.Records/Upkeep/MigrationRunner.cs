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

        // A table that others point to can only be built anew with the enforcement off (sqlite.org/lang_altertable.html, section 7);
        // the setting does nothing inside a transaction, and each step is checked before it is committed.
        connection.Execute("PRAGMA foreign_keys = OFF");
        try
        {
            foreach (Migration migration in migrations)
            {
                Apply(connection, migration);
            }
        }
        finally
        {
            connection.Execute("PRAGMA foreign_keys = ON");
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
        if (connection.ExecuteScalar<long>("SELECT count(*) FROM pragma_foreign_key_check", transaction: transaction) is var loose and > 0)
        {
            throw new RecordException(
                RecordTrouble.Damaged,
                string.Create(CultureInfo.InvariantCulture, $"The record cannot be brought to layout {migration.Number}: {loose} of its references point to nothing."),
                "It was left as it was.",
                "Run doctor with the version that wrote it, or go back to a backup.");
        }

        transaction.Commit();
    }

    private static long Version(SqliteConnection connection, SqliteTransaction? transaction)
        => connection.ExecuteScalar<long>("PRAGMA user_version", transaction: transaction);
}
