using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Dapper;
using LeafScan.Records.Exchange;
using LeafScan.Records.Sense;
using Microsoft.Data.Sqlite;

namespace LeafScan.Records;

/// <summary>A whole record that was written to or read from a file.</summary>
/// <param name="Sha256">Hash of the content; the same for two records that hold the same.</param>
/// <param name="Rows">Rows of all tables.</param>
public sealed record RecordExchanged(string Sha256, long Rows);

public sealed partial class RecordStore
{
    private const int TooBig = 18, ConstraintFailed = 19, Mismatch = 20;

    // A fixed day, so that the same record gives the same file.
    private static readonly DateTimeOffset EntryTime = new(2000, 1, 1, 0, 0, 0, TimeSpan.Zero);

    private static readonly JsonSerializerOptions ManifestLayout = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, WriteIndented = true, NewLine = "\n" };

    /// <summary>
    /// Writes everything on record, the bin and the edits included, as JSON lines in one ZIP file, with the settings and the own
    /// thresholds beside them. The photos are not in it.
    /// </summary>
    /// <param name="target">File to write; an existing one is not overwritten.</param>
    /// <param name="toolVersion">Version of the tool, for the manifest.</param>
    public RecordExchanged ExportTo(string target, string toolVersion)
    {
        TakeInThresholdFile();
        return Read(connection => WriteExport(connection, target, toolVersion));
    }

    private RecordExchanged WriteExport(SqliteConnection connection, string target, string toolVersion)
    {
        string file = Path.GetFullPath(target);
        if (System.IO.File.Exists(file))
        {
            throw new RecordException(RecordTrouble.CannotWrite, $"There is a file {file} already.", "It was left as it is.", "Name another file.");
        }

        string unfinished = file + ".unfinished";
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(file)!);
            RecordExchanged written;
            using (FileStream stream = new(unfinished, FileMode.Create))
            using (ZipArchive zip = new(stream, ZipArchiveMode.Create))
            {
                written = Export(connection, zip, toolVersion);
            }

            System.IO.File.Move(unfinished, file);
            return written;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new RecordException(RecordTrouble.CannotWrite, $"The file {file} could not be written.", "The record was not changed.", "Name a writable folder with enough room and try again.", fault);
        }
        finally
        {
            if (System.IO.File.Exists(unfinished))
            {
                System.IO.File.Delete(unfinished);
            }
        }
    }

    /// <summary>Reads a whole record into this one, which must be empty: all of it or nothing.</summary>
    /// <param name="source">File from <see cref="ExportTo"/>.</param>
    /// <exception cref="RecordException">This record is not empty; the file is missing, damaged, foreign or of another layout, or holds values that make no sense.</exception>
    public RecordExchanged ImportFrom(string source) => Write(transaction =>
    {
        SqliteConnection connection = transaction.Connection!;
        IReadOnlyList<RecordTable> tables = RecordTable.All(connection, transaction);
        if (tables.Any(table => connection.ExecuteScalar<long>($"SELECT EXISTS (SELECT 1 FROM \"{table.Name}\")", transaction: transaction) == 1))
        {
            throw new RecordException(
                RecordTrouble.WrongValue, $"The record in {Folder} is not empty.", "Nothing was changed.", "Import into a new data folder: name one with --data-dir.");
        }

        try
        {
            using ZipArchive zip = ZipFile.OpenRead(source);
            return Import(transaction, zip, tables, source);
        }
        catch (Exception fault) when (fault is InvalidDataException or JsonException or IOException or UnauthorizedAccessException or InvalidOperationException or DecoderFallbackException
            || fault is SqliteException { SqliteErrorCode: ConstraintFailed or Mismatch or TooBig })
        {
            throw NotAnExport(source, fault);
        }
    });

    private RecordExchanged Export(SqliteConnection connection, ZipArchive zip, string toolVersion)
    {
        // One snapshot for all tables, so that what another command writes meanwhile is in none of them.
        using SqliteTransaction snapshot = connection.BeginTransaction(deferred: true);
        List<TableEntry> entries = [];
        foreach (RecordTable table in RecordTable.All(connection, snapshot))
        {
            using var hash = SHA256.Create();
            ZipArchiveEntry entry = NewEntry(zip, table.Name + ".jsonl");
            long rows;
            using (Stream stream = entry.Open())
            using (CryptoStream hashed = new(stream, hash, CryptoStreamMode.Write))
            using (BufferedStream buffered = new(hashed, 1 << 16))
            {
                rows = table.Write(connection, snapshot, buffered);
            }

            entries.Add(new TableEntry(table.Name, table.Columns, rows, Convert.ToHexStringLower(hash.Hash!)));
        }

        List<FileEntry> files = RecordFiles.Write(Folder, name => NewEntry(zip, name).Open());
        var manifest = new RecordManifest
        {
            Schema = RecordManifest.SchemaName,
            Tool = toolVersion,
            Layout = (int)connection.ExecuteScalar<long>("PRAGMA user_version", transaction: snapshot),
            Sha256 = HashOf(entries, files),
            Tables = entries,
            Files = files.Count == 0 ? null : files,
        };
        using (Stream stream = NewEntry(zip, RecordManifest.EntryName).Open())
        {
            JsonSerializer.Serialize(stream, manifest, ManifestLayout);
        }

        return new RecordExchanged(manifest.Sha256, entries.Sum(entry => entry.Rows));
    }

    private RecordExchanged Import(SqliteTransaction transaction, ZipArchive zip, IReadOnlyList<RecordTable> tables, string source)
    {
        SqliteConnection connection = transaction.Connection!;
        using Stream described = (zip.GetEntry(RecordManifest.EntryName) ?? throw new InvalidDataException("There is no manifest.")).Open();
        RecordManifest manifest = JsonSerializer.Deserialize<RecordManifest>(LimitedReading.Whole(described), ManifestLayout) ?? throw new InvalidDataException("The manifest is empty.");
        if (manifest.Tables is null || manifest.Tables.Any(entry => entry is not { Columns: not null }))
        {
            throw new InvalidDataException("The manifest names no tables.");
        }

        long layout = connection.ExecuteScalar<long>("PRAGMA user_version", transaction: transaction);
        if (manifest.Schema != RecordManifest.SchemaName || manifest.Layout != layout)
        {
            throw new RecordException(
                RecordTrouble.FromNewerVersion, $"The file {source} is of schema {manifest.Schema} and layout {manifest.Layout}; this LeafScan reads {RecordManifest.SchemaName} and layout {layout}.",
                "Nothing was changed.", "Use the version that wrote it, or restore a backup: those are brought up to date.");
        }

        // Rows may come before those they point to; what still points to nothing at the end is refused.
        connection.Execute("PRAGMA defer_foreign_keys = ON", transaction: transaction);
        List<TableEntry> read = [];
        foreach (RecordTable table in tables)
        {
            TableEntry told = manifest.Tables.Single(entry => entry.Name == table.Name);
            if (!told.Columns.SequenceEqual(table.Columns))
            {
                throw new InvalidDataException($"The columns of {table.Name} are not those of this layout.");
            }

            using var hash = SHA256.Create();
            using Stream stream = (zip.GetEntry(table.Name + ".jsonl") ?? throw new InvalidDataException($"{table.Name} is missing.")).Open();
            using CryptoStream hashed = new(stream, hash, CryptoStreamMode.Read);
            using StreamReader lines = new(hashed, new UTF8Encoding(false, throwOnInvalidBytes: true));
            long rows = table.Read(connection, transaction, lines);
            string sha = Convert.ToHexStringLower(hash.Hash!);
            if (rows != told.Rows || sha != told.Sha256)
            {
                throw new InvalidDataException($"{table.Name} is not as it was written.");
            }

            read.Add(told);
        }

        if (connection.ExecuteScalar<long>("SELECT count(*) FROM pragma_foreign_key_check", transaction: transaction) > 0)
        {
            throw new InvalidDataException("Some rows point to nothing.");
        }

        if (SenseCheck.Faults(transaction, _clock.GetUtcNow()) is { Count: > 0 } faults)
        {
            throw new RecordException(
                RecordTrouble.WrongValue, $"The file {source} is whole, but holds values that make no sense: {string.Join("; ", faults)}.", "Nothing was changed.",
                "Export the record again where it came from, or restore a backup; if somebody changed the file by hand, mend it there.");
        }

        PlantDays.RenewAll(transaction);
        IReadOnlyList<FileEntry> files = manifest.Files ?? [];
        RecordFiles.Read(Folder, files, zip);
        return new RecordExchanged(HashOf(read, files), read.Sum(entry => entry.Rows));
    }

    private static ZipArchiveEntry NewEntry(ZipArchive zip, string name)
    {
        ZipArchiveEntry entry = zip.CreateEntry(name, CompressionLevel.Fastest);
        entry.LastWriteTime = EntryTime;
        return entry;
    }

    private static string HashOf(IEnumerable<TableEntry> entries, IEnumerable<FileEntry> files)
        => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join(
            '\n', entries.Select(entry => $"{entry.Name} {entry.Sha256}").Concat(files.Select(file => $"{file.Name} {file.Sha256}"))))));

    private static RecordException NotAnExport(string source, Exception fault) => new(
        RecordTrouble.WrongValue, $"The file {source} is missing, damaged or no whole record of LeafScan.", "Nothing was changed.", "Name a file that export wrote, or restore a backup.", fault);
}
