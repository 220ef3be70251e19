using System.IO.Compression;
using System.Security.Cryptography;

namespace LeafScan.Records.Exchange;

/// <summary>
/// The files of a data folder that belong to a whole record and are no table: what the person told of notes, units and printer.
/// They travel byte for byte.
/// </summary>
internal static class RecordFiles
{
    private static readonly (string Name, Func<byte[], bool> IsSound)[] All =
    [
        (Settings.FileName, bytes => Settings.Read(bytes) is not null),
    ];

    /// <summary>Writes those that are there.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="open">Opens an entry of that name.</param>
    /// <exception cref="RecordException">One is there and cannot be read.</exception>
    public static List<FileEntry> Write(string folder, Func<string, Stream> open)
    {
        List<FileEntry> written = [];
        foreach ((string name, Func<byte[], bool> isSound) in All)
        {
            string path = Path.Combine(folder, name);
            if (!File.Exists(path))
            {
                continue;
            }

            // A file that this LeafScan cannot read would be found out only where it is imported.
            byte[] bytes = File.ReadAllBytes(path);
            if (!isSound(bytes))
            {
                throw Settings.CannotBeRead(path, null);
            }

            using Stream stream = open(name);
            stream.Write(bytes);
            written.Add(new FileEntry(name, Convert.ToHexStringLower(SHA256.HashData(bytes))));
        }

        return written;
    }

    /// <summary>Reads them into a data folder. Files of the same name with other content there are not overwritten.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="files">What the manifest tells.</param>
    /// <param name="zip">The archive.</param>
    /// <exception cref="RecordException">The folder has such a file with other content.</exception>
    /// <exception cref="InvalidDataException">A file is missing, is not as it was written or has a strange name.</exception>
    public static void Read(string folder, IReadOnlyList<FileEntry> files, ZipArchive zip)
    {
        List<(string Path, byte[] Bytes)> toWrite = [];
        foreach (FileEntry file in files)
        {
            // The names are ours alone: nothing from outside becomes a path.
            if (All.FirstOrDefault(one => one.Name == file?.Name) is not { IsSound: { } isSound })
            {
                throw new InvalidDataException($"{file?.Name} is none of a record's files.");
            }

            byte[] bytes = BytesOf(zip, file);
            if (!isSound(bytes))
            {
                throw new InvalidDataException($"{file.Name} cannot be read.");
            }

            string path = Path.Combine(folder, file.Name);
            if (!File.Exists(path))
            {
                toWrite.Add((path, bytes));
            }
            else if (!File.ReadAllBytes(path).AsSpan().SequenceEqual(bytes))
            {
                throw new RecordException(
                    RecordTrouble.WrongValue, $"The data folder {folder} has a {file.Name} of its own.", "Nothing was changed.", "Import into a new data folder, or move that file away first.");
            }
        }

        foreach ((string path, byte[] bytes) in toWrite)
        {
            File.WriteAllBytes(path, bytes);
        }
    }

    private static byte[] BytesOf(ZipArchive zip, FileEntry file)
    {
        using Stream stream = (zip.GetEntry(file.Name) ?? throw new InvalidDataException($"{file.Name} is missing.")).Open();
        byte[] bytes = LimitedReading.Whole(stream);
        return Convert.ToHexStringLower(SHA256.HashData(bytes)) == file.Sha256 ? bytes : throw new InvalidDataException($"{file.Name} is not as it was written.");
    }
}
