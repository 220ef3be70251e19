namespace LeafScan.Photos;

/// <summary>A file that was passed over without being opened, and why.</summary>
/// <param name="Path">The file.</param>
/// <param name="Why">The reason, a few words.</param>
public sealed record SkippedFile(string Path, string Why);

/// <summary>What lies under a file or folder that somebody named.</summary>
/// <param name="Files">Files to open, in natural order (2 before 10), folder by folder. Whether they are photos is for <see cref="PhotoReader"/> to say.</param>
/// <param name="Skipped">Files passed over.</param>
/// <param name="Problem">One sentence when the place itself cannot be read; null otherwise.</param>
public sealed record PhotoListing(IReadOnlyList<string> Files, IReadOnlyList<SkippedFile> Skipped, string? Problem);

/// <summary>Lists the photos of a folder and its sub-folders.</summary>
public static class PhotoFolder
{
    /// <summary>Reason of a file that was written to a moment ago: looking again may find it whole.</summary>
    public const string StillGrowing = "still being written";

    // What phones and systems leave beside photos: edits, positions, previews.
    private static readonly string[] SidecarEndings = [".aae", ".xmp", ".thm", ".ini", ".db", ".json", ".csv", ".md"];

    /// <summary>Lists a file or a folder with all its sub-folders.</summary>
    /// <param name="path">File or folder.</param>
    /// <param name="now">The time now: a file written to within the last 0.3 s may still be growing and is passed over.</param>
    public static PhotoListing List(string path, DateTimeOffset now)
    {
        if (File.Exists(path))
        {
            return new PhotoListing([path], [], null);
        }

        if (!Directory.Exists(path))
        {
            return new PhotoListing([], [], $"There is no file or folder \"{path}\"; check the name and try again.");
        }

        List<string> files = [];
        List<SkippedFile> skipped = [];
        try
        {
            Walk(path, now, files, skipped);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return new PhotoListing([], skipped, $"The folder \"{path}\" cannot be read; give yourself the right to read it and try again.");
        }

        return new PhotoListing(files, skipped, null);
    }

    private static void Walk(string folder, DateTimeOffset now, List<string> files, List<SkippedFile> skipped)
    {
        foreach (string file in Directory.EnumerateFiles(folder).Order(NaturalOrder.Comparer))
        {
            if (WhySkip(file, now) is { } why)
            {
                skipped.Add(new SkippedFile(file, why));
            }
            else
            {
                files.Add(file);
            }
        }

        foreach (string sub in Directory.EnumerateDirectories(folder).Order(NaturalOrder.Comparer))
        {
            if (Path.GetFileName(sub).StartsWith('.') || new DirectoryInfo(sub).LinkTarget is not null)
            {
                skipped.Add(new SkippedFile(sub, "hidden folder or link"));
            }
            else
            {
                Walk(sub, now, files, skipped);
            }
        }
    }

    private static string? WhySkip(string file, DateTimeOffset now)
    {
        string name = Path.GetFileName(file);
        if (name.StartsWith('.'))
        {
            return "hidden file";
        }

        if (SidecarEndings.Contains(Path.GetExtension(name), StringComparer.OrdinalIgnoreCase))
        {
            return "not a photo but a note beside one";
        }

        TimeSpan age = now - File.GetLastWriteTimeUtc(file);
        return age >= TimeSpan.Zero && age < TimeSpan.FromMilliseconds(300) ? StillGrowing : null;
    }
}
