using System.Text.Json;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

/// <summary>Turns SQLite's result codes (sqlite.org/rescode.html) into sentences for the person at the keyboard.</summary>
internal static class SqliteTrouble
{
    private const int Error = 1, Perm = 3, Busy = 5, Locked = 6, ReadOnly = 8, IoError = 10, Corrupt = 11, Full = 13, CantOpen = 14, NotADatabase = 26;

    /// <summary>The exception to throw, or null when the fault is ours and should surface as it is.</summary>
    public static RecordException? Explain(SqliteException fault, string file)
    {
        return fault.SqliteErrorCode switch
        {
            Busy or Locked => new RecordException(
                RecordTrouble.Busy,
                $"Another command has been writing into the record {file} for a long time.",
                "Nothing of this step was written; what was recorded before is safe.",
                "Wait until the other command ends and run this one again.",
                fault),
            Perm or ReadOnly or CantOpen => CannotWrite(file, fault),
            Full => DiskFull(file, fault),
            Corrupt => Damaged(file, fault),

            // SQLite gave the transaction up by itself, which it does on damage and full disks (sqlite.org/lang_transaction.html, 2.3), and then
            // could not be told to: this hides what came first.
            Error when fault.Message.Contains("no transaction is active", StringComparison.Ordinal) => Damaged(file, fault),
            NotADatabase => NotARecord(file, fault),
            IoError => new RecordException(
                RecordTrouble.DiskFault,
                $"The disk reported a fault while the record {file} was read or written.",
                "Nothing of this step was written; what was recorded before is still in the file.",
                "Check the disk and whether the folder is still there, then run the command again.",
                fault),
            _ => null,
        };
    }

    /// <summary>
    /// The same where the layout is the newest: every statement of ours is right for its tables, so one that cannot be carried out has
    /// met tables that are not what they were.
    /// </summary>
    public static RecordException? ExplainInLayout(SqliteException fault, string file) =>
        Explain(fault, file) ?? (fault.SqliteErrorCode == Error ? Damaged(file, fault) : null);

    /// <summary>Whether a value of the record is none that was ever written: SQLite has no checksums, so a changed byte may pass for sound.</summary>
    public static bool IsSenseless(Exception fault) =>
        fault is FormatException or JsonException or InvalidCastException or OverflowException || fault.GetType() == typeof(ArgumentException);

    public static RecordException Damaged(string file, Exception fault) => new(
        RecordTrouble.Damaged,
        $"The record {file} is damaged.",
        "The file was left as it is, and the photos are untouched.",
        $"Move it aside and put the newest file of {Path.Combine(Path.GetDirectoryName(file) ?? ".", RecordStore.BackupFolderName)} in its place.",
        fault);

    public static RecordException CannotWrite(string file, Exception fault) => new(
        RecordTrouble.CannotWrite,
        $"The record {file} cannot be written: the folder or the file is read-only, or belongs to somebody else.",
        "Nothing was changed.",
        $"Make the folder writable, or name another one with --data-dir or {DataFolder.Variable}.",
        fault);

    public static RecordException NotARecord(string file, Exception? fault = null) => new(
        RecordTrouble.NotARecord,
        $"The file {file} is not a record of LeafScan, or its beginning is damaged.",
        "The file was left as it is.",
        "Name another folder with --data-dir, or put a backup in its place.",
        fault);

    private static RecordException DiskFull(string file, Exception fault) => new(
        RecordTrouble.DiskFull,
        $"The disk is full, so the record {file} could not grow.",
        "What was recorded before is safe; the photo in hand was not recorded.",
        "Make room and run the same command again; it goes on where it stopped.",
        fault);
}
