using LeafScan.Photos;
using LeafScan.Records;
using LeafScan.Walks.Measuring;

namespace LeafScan.Walks;

/// <summary>What a folder holds for the record: decided before anything is measured or written.</summary>
/// <param name="Folder">Full path of the folder.</param>
/// <param name="Files">Its files, in natural order.</param>
/// <param name="UsualDay">Day of files that do not tell theirs: the given one, else the day most files tell; null when none does.</param>
/// <param name="GivenDay">Day given on the command line; counts for every file. Null when none was given.</param>
public sealed record WalkPlan(string Folder, IReadOnlyList<WalkFile> Files, DateOnly? UsualDay, DateOnly? GivenDay)
{
    // A camera whose clock was never set starts years back; nobody walked then with this tool.
    private static readonly DateOnly Earliest = new(2000, 1, 1);

    /// <summary>Day of the walk to which a file belongs; null when nothing tells it.</summary>
    public DateOnly? DayOf(WalkFile file) => GivenDay ?? file.Day ?? UsualDay;

    /// <summary>A new file of which nothing tells the day, so that the plan cannot be carried out; null when there is none.</summary>
    public WalkFile? FirstWithoutDay => Files.FirstOrDefault(file => file.IsNew && DayOf(file) is null);

    /// <summary>Looks at every file once: fingerprint, day, plant, whether it is known.</summary>
    /// <param name="folder">Folder of the walk.</param>
    /// <param name="items">Its files.</param>
    /// <param name="givenDay">Day given by the person; null to take the photos' own.</param>
    /// <param name="find">Finds a photo on record by its fingerprint.</param>
    /// <param name="clock">Tells which days lie in the future.</param>
    /// <param name="cancel">Stops between files.</param>
    /// <param name="plantOf">Tells the plant from the folder of the walk and the path of a photo; null for <see cref="PlantFromPath"/>.</param>
    public static WalkPlan Make(
        string folder, IReadOnlyList<PhotoItem> items, DateOnly? givenDay, Func<string, PhotoOnRecord?> find, TimeProvider clock, CancellationToken cancel,
        Func<string, string, PlantGuess>? plantOf = null)
    {
        plantOf ??= PlantFromPath.Decide;
        DateOnly latest = DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime).AddDays(1);
        PhotoLimits limits = new();
        Dictionary<string, string> seen = new(StringComparer.Ordinal);
        List<WalkFile> files = [];
        foreach (PhotoItem item in items)
        {
            cancel.ThrowIfCancellationRequested();
            PhotoGlance glance = PhotoGlance.At(item.Path, limits);
            DateOnly? day = glance.Taken is { } taken ? DateOnly.FromDateTime(taken.Local) : null;
            string? twin = glance.Sha256 is { } sha && !seen.TryAdd(sha, item.Label) ? seen[sha] : null;
            files.Add(new WalkFile(
                item,
                glance.Sha256,
                day is { } known && known >= Earliest && known <= latest ? known : null,
                plantOf(folder, item.Path),
                LeafFromPath.Decide(folder, item.Path),
                glance.Sha256 is { } print ? find(print) : null,
                glance.Refusal is { } refusal ? refusal with { FileName = item.Label } : null,
                twin)
            { Taken = glance.Taken });
        }

        DateOnly? usual = givenDay ?? files.Where(file => file.Day is not null)
            .GroupBy(file => file.Day!.Value).OrderByDescending(days => days.Count()).ThenBy(days => days.Key)
            .Select(days => (DateOnly?)days.Key).FirstOrDefault();
        return new WalkPlan(folder, files, usual, givenDay);
    }
}
