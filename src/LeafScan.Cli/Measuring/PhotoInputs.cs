using LeafScan.Photos;

namespace LeafScan.Cli.Measuring;

/// <summary>What the words of a command line come to as files.</summary>
/// <param name="Items">Files to open, each once, in the order given.</param>
/// <param name="Problems">Names that lead nowhere, as refusals.</param>
/// <param name="Skipped">Files that were passed over, with the reason.</param>
internal sealed record PhotoInputs(IReadOnlyList<PhotoItem> Items, IReadOnlyList<PhotoRefusal> Problems, IReadOnlyList<SkippedFile> Skipped)
{
    /// <summary>Lists files and folders.</summary>
    /// <param name="paths">Files and folders as given.</param>
    /// <param name="now">The time now.</param>
    public static PhotoInputs List(IEnumerable<string> paths, DateTimeOffset now)
    {
        List<string> files = [];
        List<PhotoRefusal> problems = [];
        List<SkippedFile> skipped = [];
        HashSet<string> seen = new(StringComparer.Ordinal);
        foreach (string path in paths)
        {
            PhotoListing listing = PhotoFolder.List(path, now);
            if (listing.Problem is { } problem)
            {
                problems.Add(new PhotoRefusal(path, problem, "Nothing else is touched by this."));
            }

            skipped.AddRange(listing.Skipped);
            files.AddRange(listing.Files.Select(Path.GetFullPath).Where(seen.Add));
        }

        return new PhotoInputs(PhotoNames.Give(files), problems, skipped);
    }
}
