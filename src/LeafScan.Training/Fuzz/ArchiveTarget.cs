using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using LeafScan.Records;
using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Fuzz;

/// <summary>
/// import: whole records as archives. Three in four are archives whose content lies and whose checksums are right; half of these hold one
/// value that cannot be true, and must be refused.
/// </summary>
internal sealed class ArchiveTarget(RecordOriginal original, string folder) : IFuzzTarget
{
    private const string Manifest = "record.json";
    private const int BombBytes = 60_000_000;

    private readonly FuzzFolder _data = new(Path.Combine(folder, "import"));
    private readonly string _file = Path.Combine(folder, "archive.zip");
    private readonly Dictionary<string, byte[]> _entries = Entries(original.Archive);
    private readonly SenselessValues _senseless = new(Columns(Entries(original.Archive)[Manifest]));

    public string Name => "archives";

    public FuzzFile Next(Random random)
    {
        if (random.Hit(0.25))
        {
            (string damage, byte[] bytes) = ByteDamage.Any(original.Archive, random);
            return new FuzzFile(damage, bytes, 0);
        }

        Dictionary<string, byte[]> entries = new(_entries);
        if (random.Hit(0.5))
        {
            string senseless = _senseless.Put(entries, random);
            Mend(entries);
            return new FuzzFile(senseless, Zip(entries), 0) { IsPlain = true };
        }

        string entry = random.Pick([.. entries.Keys.Where(name => name != Manifest).Order(StringComparer.Ordinal)]);
        string what;
        switch (random.Next(8))
        {
            case 0:
                entries.Remove(entry);
                what = "an entry is missing";
                break;
            case 1:
                entries[Manifest] = Encoding.UTF8.GetBytes(TextDamage.Change(Encoding.UTF8.GetString(entries[Manifest]), random));
                return new FuzzFile("the manifest lies", Zip(entries), 0);
            case 2:
                entries[entry] = ByteDamage.Any(entries[entry].Length == 0 ? [1, 2, 3] : entries[entry], random).Bytes;
                what = "bytes of a table changed, checksum mended";
                break;
            case 3 when random.Hit(0.1):
                entries[entry] = [.. Enumerable.Repeat((byte)'[', BombBytes)];
                what = "a table of 60 MB in one line, packed small";
                break;
            default:
                entries[entry] = Encoding.UTF8.GetBytes(OneLine(Encoding.UTF8.GetString(entries[entry]), random));
                what = "values of a table lie, checksum mended";
                break;
        }

        Mend(entries);
        return new FuzzFile(what, Zip(entries), 0);
    }

    public FuzzResult Try(FuzzFile file)
    {
        File.WriteAllBytes(_file, file.Bytes);
        string data = _data.Fresh();
        try
        {
            using RecordStore store = RecordStore.Open(data, TimeProvider.System);
            store.ImportFrom(_file);
        }
        catch (RecordException)
        {
            using RecordStore store = RecordStore.Open(data, TimeProvider.System);
            return store.Describe() is { Plants: 0, Photos: 0 } && store.CheckIntegrity().Count == 0 && !File.Exists(Path.Combine(data, Settings.FileName))
                ? new FuzzResult("refused")
                : new FuzzResult("refused", "something of a refused archive is in the record");
        }

        Settings.Load(data);
        int unanswered = RecordQuestions.Ask(data);
        return new FuzzResult("taken in", file.IsPlain ? "a value that makes no sense was taken in"
            : unanswered > 0 ? "what was taken in cannot answer every question" : null);
    }

    private static Dictionary<string, IReadOnlyList<string>> Columns(byte[] manifest) => JsonNode.Parse(manifest)!["tables"]!.AsArray().ToDictionary(
        table => (string)table!["name"]!, IReadOnlyList<string> (table) => [.. table!["columns"]!.AsArray().Select(column => (string)column!)]);

    private static string OneLine(string text, Random random)
    {
        string[] lines = text.Split('\n');
        int line = random.Next(lines.Length);
        lines[line] = TextDamage.Change(lines[line], random);
        return string.Join('\n', lines);
    }

    private static void Mend(Dictionary<string, byte[]> entries)
    {
        JsonNode manifest = JsonNode.Parse(entries[Manifest])!;
        foreach (JsonNode? table in manifest["tables"]!.AsArray())
        {
            if (entries.TryGetValue((string)table!["name"]! + ".jsonl", out byte[]? rows))
            {
                table["sha256"] = Sha(rows);
                table["rows"] = rows.Length == 0 ? 0 : rows.Count(value => value == '\n') + (rows[^1] == '\n' ? 0 : 1);
            }
        }

        foreach (JsonNode? file in manifest["files"]?.AsArray() ?? [])
        {
            if (entries.TryGetValue((string)file!["name"]!, out byte[]? content))
            {
                file["sha256"] = Sha(content);
            }
        }

        entries[Manifest] = Encoding.UTF8.GetBytes(manifest.ToJsonString());
    }

    private static string Sha(byte[] bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));

    private static Dictionary<string, byte[]> Entries(byte[] archive)
    {
        using ZipArchive zip = new(new MemoryStream(archive));
        return zip.Entries.ToDictionary(entry => entry.FullName, entry =>
        {
            using MemoryStream whole = new();
            using Stream stream = entry.Open();
            stream.CopyTo(whole);
            return whole.ToArray();
        });
    }

    private static byte[] Zip(Dictionary<string, byte[]> entries)
    {
        using MemoryStream whole = new();
        using (ZipArchive zip = new(whole, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach ((string name, byte[] bytes) in entries.OrderBy(entry => entry.Key, StringComparer.Ordinal))
            {
                using Stream stream = zip.CreateEntry(name, CompressionLevel.Fastest).Open();
                stream.Write(bytes);
            }
        }

        return whole.ToArray();
    }

    public void Dispose()
    {
    }
}
