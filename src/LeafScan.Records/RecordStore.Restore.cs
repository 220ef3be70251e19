using Dapper;
using LeafScan.Records.Upkeep;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

/// <summary>What going back to a backup did.</summary>
/// <param name="Facts">The record as it is now.</param>
/// <param name="BackupOfBefore">Backup of the record as it was before; null when there was none.</param>
public sealed record RecordRestored(StoreFacts Facts, string? BackupOfBefore);

public sealed partial class RecordStore
{
    /// <summary>
    /// Puts a backup in the place of the record: checks the backup, backs up the record as it is, then copies. The copying is one
    /// transaction of SQLite's own: cut off, the record is as it was. A backup of an older layout is brought up to date.
    /// </summary>
    /// <param name="dataFolder">Data folder; begun when missing.</param>
    /// <param name="backup">File to go back to.</param>
    /// <param name="clock">Gives the times in names.</param>
    /// <exception cref="RecordException">The backup is missing, damaged, foreign or newer; the record cannot be written.</exception>
    public static RecordRestored Restore(string dataFolder, string backup, TimeProvider clock)
    {
        string file = Path.GetFullPath(backup);
        if (!System.IO.File.Exists(file))
        {
            throw new RecordException(RecordTrouble.WrongValue, $"There is no file {file}.", "Nothing was changed.", "Name a backup; doctor says where the data folder with its backups is.");
        }

        RefuseUnfit(file);
        bool wasThere = Exists(dataFolder);
        string? before = null;
        long last;
        using (RecordStore store = Open(dataFolder, clock))
        {
            before = wasThere ? store.BackUp(BackupFiles.NameFor(store.Folder, clock, "before-restore")) : null;
            last = store.Changes().Last;
            store.Read(connection =>
            {
                using var source = new SqliteConnection(StoreConnection.Text(file, SqliteOpenMode.ReadOnly, TimeSpan.FromSeconds(30)));
                source.Open();
                source.BackupDatabase(connection);
                return 0;
            });
        }

        using RecordStore now = Open(dataFolder, clock);
        now.Write(transaction =>
        {
            TellAllChanged(transaction, last);
            return 0;
        });
        return new RecordRestored(now.Describe(), before);
    }

    private static void RefuseUnfit(string file)
    {
        try
        {
            using var source = new SqliteConnection(StoreConnection.Text(file, SqliteOpenMode.ReadOnly, TimeSpan.FromSeconds(30)));
            source.Open();
            RefuseForeignFile(source, file, Migration.All[^1].Number);
            if (source.ExecuteScalar<long>("PRAGMA application_id") != ApplicationId)
            {
                throw SqliteTrouble.NotARecord(file);
            }

            if (IntegrityCheck.Of(source) is [{ } fault, ..])
            {
                throw new RecordException(RecordTrouble.Damaged, $"The backup {file} did not pass its check: {fault}.", "The record was not changed.", "Use an older backup.");
            }
        }
        catch (SqliteException fault) when (SqliteTrouble.ExplainInLayout(fault, file) is { } trouble)
        {
            throw trouble;
        }
    }
}
