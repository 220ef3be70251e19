using System.Globalization;
using Dapper;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records.Upkeep;

/// <summary>
/// Backups by SQLite's online backup. Copying the file would not do: rows just written may still be in the write-ahead
/// file beside it.
/// </summary>
internal static class BackupFiles
{
    private const string AutomaticPrefix = "before-layout-";
    private const int StampLength = 18;

    /// <summary>Copies the store into <paramref name="target"/>, checks the copy and only then gives it its name.</summary>
    public static void Take(SqliteConnection connection, string target)
    {
        string unfinished = target + ".unfinished";
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(target)!);
            File.Delete(unfinished);
            Copy(connection, unfinished);
            IReadOnlyList<string> faults = IntegrityCheck.OfFile(unfinished);
            if (faults.Count > 0)
            {
                throw new RecordException(
                    RecordTrouble.Damaged, $"The backup {target} did not pass its check: {faults[0]}.", "The record itself was not changed.", "Run doctor to look at the record.");
            }

            File.Move(unfinished, target);
        }
        catch (SqliteException fault) when (SqliteTrouble.Explain(fault, target) is { } trouble)
        {
            throw new RecordException(
                trouble.Trouble, $"The backup {target} could not be written.", "The record itself was not changed.", "Name a writable folder with enough room and try again.", fault);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new RecordException(
                RecordTrouble.CannotWrite, $"The backup {target} could not be written.", "The record itself was not changed.", "Name a writable folder with enough room and try again.", fault);
        }
        finally
        {
            DeleteIfPossible(unfinished);
        }
    }

    /// <summary>Takes the backup that goes before a change of layout and drops the oldest automatic ones.</summary>
    public static void TakeAutomatic(SqliteConnection connection, string folder, long version, TimeProvider clock, int kept)
    {
        string backups = Path.Combine(folder, RecordStore.BackupFolderName);
        string name = string.Create(CultureInfo.InvariantCulture, $"{AutomaticPrefix}{version + 1}-{Stamp(clock)}");
        Take(connection, FreeName(backups, name));
        foreach (string old in Automatic(backups).Skip(Math.Max(1, kept)))
        {
            DeleteIfPossible(old);
        }
    }

    /// <summary>Name for a backup that a person asks for.</summary>
    public static string NameFor(string folder, TimeProvider clock, string word = "leafscan")
        => FreeName(Path.Combine(folder, RecordStore.BackupFolderName), $"{word}-{Stamp(clock)}");

    /// <summary>Every finished backup of a data folder, newest first.</summary>
    public static IReadOnlyList<string> List(string folder)
    {
        string backups = Path.Combine(folder, RecordStore.BackupFolderName);
        return Directory.Exists(backups) ? [.. NewestFirst(Directory.EnumerateFiles(backups, "*.db"))] : [];
    }

    private static IEnumerable<string> Automatic(string backups) => NewestFirst(Directory.EnumerateFiles(backups, AutomaticPrefix + "*.db"));

    // The stamp at the end of the name is a time that sorts as text; file times may change when files are copied about.
    private static IOrderedEnumerable<string> NewestFirst(IEnumerable<string> files)
        => files.OrderByDescending(file => StampOf(file), StringComparer.Ordinal).ThenByDescending(file => file, StringComparer.Ordinal);

    private static string StampOf(string file)
    {
        string name = Path.GetFileNameWithoutExtension(file);
        int at = name.IndexOf('Z');
        return at >= StampLength ? name[(at - StampLength)..] : "";
    }

    private static string Stamp(TimeProvider clock) => clock.GetUtcNow().UtcDateTime.ToString("yyyyMMdd'T'HHmmssfff'Z'", CultureInfo.InvariantCulture);

    private static string FreeName(string backups, string name)
    {
        string free = Path.Combine(backups, name + ".db");
        for (int number = 2; File.Exists(free); number++)
        {
            free = Path.Combine(backups, string.Create(CultureInfo.InvariantCulture, $"{name}-{number}.db"));
        }

        return free;
    }

    private static void Copy(SqliteConnection connection, string target)
    {
        using var copy = new SqliteConnection(StoreConnection.Text(target, SqliteOpenMode.ReadWriteCreate, TimeSpan.FromSeconds(5)));
        copy.Open();
        connection.BackupDatabase(copy);

        // The copy inherits write-ahead mode, in which even reading writes files beside it; a backup is one file.
        copy.Execute("PRAGMA journal_mode = DELETE");
    }

    private static void DeleteIfPossible(string file)
    {
        try
        {
            File.Delete(file);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            // A left-over file harms nobody and the next backup of this name removes it.
        }
    }
}
