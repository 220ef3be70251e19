using System.Globalization;
using LeafScan.Records;

namespace LeafScan.Web.Uploads;

/// <summary>
/// Where received photos lie in the data folder. Every name here is made from a fingerprint and a date of ours; nothing that came from
/// outside is part of a path.
/// </summary>
internal sealed class PhotoFiles(RecordStore store)
{
    private const string InboxName = "inbox";

    /// <summary>Folder for what is still arriving.</summary>
    public string Inbox { get; } = Path.Combine(store.Folder, InboxName);

    /// <summary>Folder for pictures that can be drawn again at any time.</summary>
    public string Drawn { get; } = Path.Combine(store.Folder, "drawn");

    /// <summary>A name for one that begins to arrive.</summary>
    public string NewPart()
    {
        Directory.CreateDirectory(Inbox);
        return Path.Combine(Inbox, $"{Guid.NewGuid():n}.part");
    }

    /// <summary>Where a photo of a walk is kept, relative to the data folder.</summary>
    public static string NameFor(DateOnly day, string sha256, string ending)
        => string.Create(CultureInfo.InvariantCulture, $"photos/{day:yyyy-MM-dd}/{sha256}{ending}");

    /// <summary>Full path of what <see cref="NameFor"/> names.</summary>
    public string PathOf(string storedAs) => Path.Combine(store.Folder, storedAs.Replace('/', Path.DirectorySeparatorChar));

    /// <summary>Removes what a killed server left half received: whoever sent it was not told that it arrived.</summary>
    public void DropParts()
    {
        if (!Directory.Exists(Inbox))
        {
            return;
        }

        foreach (string part in Directory.EnumerateFiles(Inbox, "*.part"))
        {
            TryDelete(part);
        }
    }

    /// <summary>Removes a file when that is possible; what stays harms nobody.</summary>
    public static void TryDelete(string path)
    {
        try
        {
            File.Delete(path);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            // It lies in a folder of ours under a name of ours and is never read.
        }
    }

    /// <summary>Ending for people who look into the folder; what a file is, its first bytes say.</summary>
    public static string Ending(ReadOnlySpan<byte> first)
        => first.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF]) ? ".jpg"
            : first.StartsWith((ReadOnlySpan<byte>)[0x89, (byte)'P', (byte)'N', (byte)'G']) ? ".png"
            : first.Length >= 8 && first[4..8].SequenceEqual("ftyp"u8) ? ".heic" : ".bin";
}
