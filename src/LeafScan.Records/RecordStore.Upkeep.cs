using Dapper;
using LeafScan.Records.Upkeep;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    /// <summary>
    /// SQLite's own integrity check and a check of every reference between tables. The faults in words; empty when the
    /// record is sound. Reads the whole file.
    /// </summary>
    public IReadOnlyList<string> CheckIntegrity() => Read(IntegrityCheck.Of);

    /// <summary>
    /// Copies the record, with everything written so far, into one file, while others may go on reading and writing. The
    /// copy is opened for reading and checked before it gets its name.
    /// </summary>
    /// <param name="target">File to write; null for a dated name in the folder "backups". An existing file is not overwritten.</param>
    /// <returns>Full path of the backup.</returns>
    public string BackUp(string? target = null)
    {
        TakeInThresholdFile();
        return Read(connection => WriteBackup(connection, target));
    }

    private string WriteBackup(SqliteConnection connection, string? target)
    {
        string file = target is null ? BackupFiles.NameFor(Folder, _clock) : Path.GetFullPath(target);
        if (System.IO.File.Exists(file))
        {
            throw new RecordException(RecordTrouble.CannotWrite, $"There is a file {file} already.", "It was left as it is.", "Name another file for the backup.");
        }

        BackupFiles.Take(connection, file);
        return file;
    }

    /// <summary>Every backup in the data folder, newest first, as full paths.</summary>
    public IReadOnlyList<string> Backups() => BackupFiles.List(Folder);

    /// <summary>What <c>doctor</c> shows of the record.</summary>
    public StoreFacts Describe() => Read(connection => new StoreFacts(
        File,
        new FileInfo(File).Length,
        (int)connection.ExecuteScalar<long>("PRAGMA user_version"),
        connection.ExecuteScalar<string>("SELECT sqlite_version()") ?? "",
        connection.ExecuteScalar<string>("PRAGMA journal_mode") ?? "",
        connection.ExecuteScalar<long>("SELECT count(*) FROM place"),
        connection.ExecuteScalar<long>("SELECT count(*) FROM plant"),
        connection.ExecuteScalar<long>("SELECT count(*) FROM walk"),
        connection.ExecuteScalar<long>("SELECT count(*) FROM photo"),
        connection.ExecuteScalar<long>("SELECT count(*) FROM reading"),
        connection.ExecuteScalar<long>("SELECT count(*) FROM leaf")));
}

/// <summary>Facts about the store's file and how much it holds.</summary>
/// <param name="File">Full path.</param>
/// <param name="ByteLength">Size in bytes, without what is still in the write-ahead file.</param>
/// <param name="Layout">Number of the layout.</param>
/// <param name="SqliteVersion">Version of SQLite.</param>
/// <param name="JournalMode">"wal" as it should be.</param>
/// <param name="Places">Number of places.</param>
/// <param name="Plants">Number of plants.</param>
/// <param name="Walks">Number of walks.</param>
/// <param name="Photos">Number of photos.</param>
/// <param name="Readings">Number of readings, old ones included.</param>
/// <param name="Leaves">Number of measured leaves, those of old readings included.</param>
public sealed record StoreFacts(
    string File, long ByteLength, int Layout, string SqliteVersion, string JournalMode,
    long Places, long Plants, long Walks, long Photos, long Readings, long Leaves);
