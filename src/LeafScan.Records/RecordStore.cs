using System.Globalization;
using Dapper;
using LeafScan.Records.Upkeep;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

/// <summary>
/// The record of one data folder: places, plants, walks, photos with their readings, refused files and care entries, in
/// one SQLite file in write-ahead mode. Several commands may have it open at once; a writer waits for the other. Each
/// method that writes is one transaction: it is done wholly or not at all. Safe to use from several threads.
/// Every method throws <see cref="RecordException"/> when disk or file make trouble. Not for network shares, because
/// write-ahead mode needs memory shared between the processes.
/// </summary>
public sealed partial class RecordStore : IDisposable
{
    /// <summary>Name of the record's file in the data folder.</summary>
    public const string FileName = "leafscan.db";

    /// <summary>Name of the folder for backups inside the data folder.</summary>
    public const string BackupFolderName = "backups";

    /// <summary>Mark in the file's header that says whose it is: the letters "LfSc".</summary>
    internal const int ApplicationId = 0x4C665363;

    private readonly Lock _gate = new();
    private readonly SqliteConnection _connection;
    private readonly TimeProvider _clock;

    private RecordStore(string folder, SqliteConnection connection, TimeProvider clock)
    {
        Folder = folder;
        File = Path.Combine(folder, FileName);
        _connection = connection;
        _clock = clock;
    }

    /// <summary>Data folder.</summary>
    public string Folder { get; }

    /// <summary>Full path of the record's file.</summary>
    public string File { get; }

    /// <summary>Opens the record of a data folder; begins one where there is none, and brings an older one up to date after a backup.</summary>
    /// <param name="dataFolder">Data folder, see <see cref="DataFolder"/>; made when missing, for its owner only.</param>
    /// <param name="clock">Gives the times that are stored.</param>
    /// <param name="options">How to open; null for the defaults.</param>
    /// <exception cref="RecordException">Missing (when it must not be begun), read-only, full, busy, damaged, newer or foreign.</exception>
    public static RecordStore Open(string dataFolder, TimeProvider clock, RecordOptions? options = null)
        => Open(dataFolder, clock, options ?? new RecordOptions(), Migration.All);

    /// <summary>Whether a data folder holds a record.</summary>
    public static bool Exists(string dataFolder) => System.IO.File.Exists(Path.Combine(dataFolder, FileName));

    internal static RecordStore Open(string dataFolder, TimeProvider clock, RecordOptions options, IReadOnlyList<Migration> migrations)
    {
        string folder = Path.GetFullPath(dataFolder);
        string file = Path.Combine(folder, FileName);
        PrepareFolder(folder, file, options.CreateIfMissing);
        var connection = new SqliteConnection(StoreConnection.Text(file, SqliteOpenMode.ReadWriteCreate, options.LockWait));
        try
        {
            connection.Open();
            RefuseForeignFile(connection, file, migrations[^1].Number);
            StoreConnection.Prepare(connection);
            MigrationRunner.BringUpToDate(connection, folder, migrations, clock, options.AutomaticBackupsKept);
            return new RecordStore(folder, connection, clock);
        }
        catch (SqliteException fault) when (SqliteTrouble.Explain(fault, file) is { } trouble)
        {
            connection.Dispose();
            throw trouble;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>Closes the file. Lets SQLite refresh its own statistics first; a failure of that is of no weight.</summary>
    public void Dispose()
    {
        lock (_gate)
        {
            try
            {
                _connection.Execute("PRAGMA optimize");
            }
            catch (SqliteException)
            {
                // Statistics only: the next close tries again.
            }

            _connection.Dispose();
        }
    }

    private static void PrepareFolder(string folder, string file, bool create)
    {
        if (System.IO.File.Exists(file))
        {
            return;
        }

        if (!create)
        {
            throw new RecordException(
                RecordTrouble.NoRecord, $"There is no record in {folder} yet.", "Nothing was changed.", "Add a walk first, or name another folder with --data-dir.");
        }

        try
        {
            if (OperatingSystem.IsWindows())
            {
                Directory.CreateDirectory(folder);
            }
            else
            {
                // The XDG specification asks for a folder that only its owner can read.
                Directory.CreateDirectory(folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
            }
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw SqliteTrouble.CannotWrite(file, fault);
        }
    }

    private static void RefuseForeignFile(SqliteConnection connection, string file, int newestKnown)
    {
        // One snapshot for all three: another process may be laying out this very file, and a mark read before its commit
        // beside tables read after it would look like somebody else's file.
        using SqliteTransaction snapshot = connection.BeginTransaction(deferred: true);
        long tables = connection.ExecuteScalar<long>("SELECT count(*) FROM sqlite_schema", transaction: snapshot);
        long owner = connection.ExecuteScalar<long>("PRAGMA application_id", transaction: snapshot);
        long version = connection.ExecuteScalar<long>("PRAGMA user_version", transaction: snapshot);
        snapshot.Commit();
        if (owner != ApplicationId && (owner != 0 || tables > 0))
        {
            throw SqliteTrouble.NotARecord(file);
        }

        if (version > newestKnown)
        {
            throw new RecordException(
                RecordTrouble.FromNewerVersion,
                string.Create(CultureInfo.InvariantCulture, $"The record {file} was written by a newer LeafScan (its layout is {version}, this one knows up to {newestKnown})."),
                "Nothing was changed.",
                "Use the newer LeafScan, or name another folder with --data-dir.");
        }
    }

    private T Read<T>(Func<SqliteConnection, T> work)
    {
        lock (_gate)
        {
            try
            {
                return work(_connection);
            }
            catch (SqliteException fault) when (SqliteTrouble.ExplainInLayout(fault, File) is { } trouble)
            {
                throw trouble;
            }
            catch (Exception fault) when (SqliteTrouble.IsSenseless(fault))
            {
                throw SqliteTrouble.Damaged(File, fault);
            }
        }
    }

    private T Write<T>(Func<SqliteTransaction, T> work)
    {
        lock (_gate)
        {
            try
            {
                // Not deferred, so the wait for another writer comes before the first statement and never in the middle.
                using SqliteTransaction transaction = _connection.BeginTransaction();
                T result = work(transaction);
                transaction.Commit();
                return result;
            }
            catch (SqliteException fault) when (SqliteTrouble.ExplainInLayout(fault, File) is { } trouble)
            {
                throw trouble;
            }
        }
    }

    private string Now() => UtcText.Of(_clock.GetUtcNow());
}
