using LeafScan.Photos;

namespace LeafScan.Walks.Measuring;

/// <summary>What the words of a command line come to as files.</summary>
/// <param name="Items">Files to open, each once, in the order given.</param>
/// <param name="Problems">Names that lead nowhere, as refusals.</param>
/// <param name="Skipped">Files that were passed over, with the reason.</param>
public sealed record PhotoInputs(IReadOnlyList<PhotoItem> Items, IReadOnlyList<PhotoRefusal> Problems, IReadOnlyList<SkippedFile> Skipped)
{
    private static readonly TimeSpan SecondLook = TimeSpan.FromMilliseconds(400);

    /// <summary>
    /// Lists files and folders. Files that are just being copied get a second look a moment later; what is still growing
    /// then is passed over.
    /// </summary>
    /// <param name="paths">Files and folders as given.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="cancel">Stops the wait.</param>
    public static async Task<PhotoInputs> ListAsync(IReadOnlyList<string> paths, TimeProvider clock, CancellationToken cancel)
    {
        PhotoInputs first = List(paths, clock.GetUtcNow());
        if (first.Skipped.All(file => file.Why != PhotoFolder.StillGrowing))
        {
            return first;
        }

        await Task.Delay(SecondLook, clock, cancel).ConfigureAwait(false);
        return List(paths, clock.GetUtcNow());
    }

    private static PhotoInputs List(IReadOnlyList<string> paths, DateTimeOffset now)
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
