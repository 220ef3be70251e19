using System.Globalization;
using LeafScan.Records;

namespace LeafScan.Cli.Checks;

/// <summary>Looks at where the record lies and whether it is sound.</summary>
internal static class PlaceChecks
{
    private const long LowDiskBytes = 500_000_000;

    /// <summary>All checks.</summary>
    /// <param name="decide">Decides the data folder.</param>
    /// <param name="clock">The clock.</param>
    public static IEnumerable<Check> All(Func<DataFolder> decide, TimeProvider clock)
    {
        DataFolder? folder = null;
        Check decided = Check.Try("data folder", "Name one with --data-dir.", () =>
        {
            folder = decide();
            return new Check("data folder", CheckState.Good, $"{folder.FolderPath} (decided by {folder.DecidedBy})");
        });
        yield return decided;
        if (folder is null)
        {
            yield break;
        }

        yield return Check.Try("disk", "Name a folder on another disk with --data-dir.", () => Disk(folder.FolderPath));
        yield return Check.Try("record", "Keep a copy of the data folder, then put a backup in its place.", () => Record(folder.FolderPath, clock));
        string log = Path.Combine(folder.FolderPath, "logs", "leafscan.log");
        if (File.Exists(log))
        {
            yield return new Check("log", CheckState.Note, $"LeafScan made mistakes of its own before: {log}", "Please report them.");
        }
    }

    private static Check Disk(string folder)
    {
        string there = folder;
        while (!Directory.Exists(there))
        {
            there = Path.GetDirectoryName(there) ?? "/";
        }

        long free = new DriveInfo(there).AvailableFreeSpace;
        string words = string.Create(CultureInfo.InvariantCulture, $"{free / 1e9:0.0} GB free at {there}");
        if (!CanWrite(there))
        {
            return new Check("disk", CheckState.Wrong, $"{there} cannot be written to.", "Make it writable, or name another folder with --data-dir.");
        }

        return free < LowDiskBytes
            ? new Check("disk", CheckState.Note, words, "Make room before the next walk.")
            : new Check("disk", CheckState.Good, words);
    }

    private static bool CanWrite(string folder)
    {
        string probe = Path.Combine(folder, ".leafscan-" + Guid.NewGuid().ToString("n"));
        try
        {
            using FileStream file = new(probe, FileMode.CreateNew, FileAccess.Write, FileShare.None, 1, FileOptions.DeleteOnClose);
            return true;
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    private static Check Record(string folder, TimeProvider clock)
    {
        if (!RecordStore.Exists(folder))
        {
            return new Check("record", CheckState.Note, "There is none yet.", "It begins with: leafscan walk add FOLDER --place NAME");
        }

        using RecordStore store = RecordStore.Open(folder, clock, new RecordOptions { CreateIfMissing = false });
        IReadOnlyList<string> faults = store.CheckIntegrity();
        StoreFacts facts = store.Describe();
        string words = string.Create(
            CultureInfo.InvariantCulture,
            $"{facts.Plants} plants, {facts.Walks} walks, {facts.Photos} photos, {facts.Leaves} leaves, {facts.ByteLength / 1e6:0.0} MB; {store.Backups().Count} backups; SQLite {facts.SqliteVersion}");
        return faults.Count == 0
            ? new Check("record", CheckState.Good, "Sound. " + words)
            : new Check("record", CheckState.Wrong, $"Damaged: {faults[0]}. {words}", "Keep a copy of the data folder, then put the newest backup in its place.");
    }
}
