using LeafScan.Leaves;
using LeafScan.Leaves.Kinds;
using LeafScan.Leaves.Learned;
using LeafScan.Photos;
using LeafScan.Records;
using LeafScan.Walks.Measuring;

namespace LeafScan.Walks.Tags;

/// <summary>Reads the tags of a walk before anything is measured, and tells the plants from them.</summary>
public static class WalkTags
{
    /// <summary>The plan with the plants that its tags tell. A walk on which nothing is new stays as it is and costs nothing.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="job">How photos are measured, and how many at once.</param>
    /// <param name="step">Told after each file; null for nobody. May come from several threads.</param>
    /// <param name="cancel">Stops between files.</param>
    public static async Task<WalkPlan> ReadAsync(WalkPlan plan, MeasureJob job, Action? step, CancellationToken cancel)
    {
        HashSet<DateOnly?> days = [.. plan.Files.Where(file => file.IsNew).Select(plan.DayOf)];
        WalkFile[] files = [.. plan.Files];
        int[] looked = [.. Enumerable.Range(0, files.Length).Where(i => MayLead(files[i]) && days.Contains(plan.DayOf(files[i])))];
        if (looked.Length == 0)
        {
            return plan;
        }

        int workers = Math.Max(1, Math.Min(job.Workers, looked.Length));
        LearnedModels.ShareProcessors(workers, Environment.ProcessorCount);
        ParallelOptions parallel = new() { MaxDegreeOfParallelism = workers, CancellationToken = cancel };
        await Parallel.ForEachAsync(looked, parallel, (i, _) =>
        {
            files[i] = files[i] with { Tag = TagOf(files[i], job) };
            step?.Invoke();
            return ValueTask.CompletedTask;
        }).ConfigureAwait(false);
        return plan with { Files = PlantByTag.Decide(files, plan.DayOf) };
    }

    /// <summary>How many files are looked at.</summary>
    public static int Count(WalkPlan plan) => plan.Files.Any(file => file.IsNew) ? plan.Files.Count(MayLead) : 0;

    /// <summary>
    /// The same for one photo that comes by itself: it follows the tags that the walk has on record. A tag that comes after its leaves
    /// does not reach back to them; what they were given stays.
    /// </summary>
    /// <param name="newcomer">The new file.</param>
    /// <param name="walk">Photos of the walk on record.</param>
    /// <param name="options">How photos are measured.</param>
    /// <param name="limits">What is refused before it is decoded.</param>
    public static WalkFile ReadOne(WalkFile newcomer, IEnumerable<PhotoOnRecord> walk, MeasureOptions options, PhotoLimits limits)
    {
        DateOnly? day = newcomer.Day;
        WalkFile[] files =
        [
            .. walk.Where(known => known.Kind == PhotoKind.Tag.Name() && !known.IsInBin).Select(known => new WalkFile(
                new PhotoItem(known.PathSeen, known.FileName, known.Sha256), known.Sha256, day, new PlantGuess(null, PlantSource.Unknown, string.Empty), new LeafWords(null, null), known, null, null)
            {
                Taken = CaptureTime.Parse(known.Taken),
                Tag = TagOf(known),
            }),
            newcomer with { Tag = TagLooker.Look(newcomer.Item.Path, options, limits) },
        ];
        return PlantByTag.Decide(files, _ => day)[^1];
    }

    private static TagSeen TagOf(PhotoOnRecord tag) => tag.PlantCode is { } code ? new TagSeen([code], false, true) : new TagSeen([], true, true);

    private static bool MayLead(WalkFile file) => file.Refusal is null && file.TwinOf is null;

    // Of a tag that is on record the record knows best: it may have been put right by hand. One in the bin counts nowhere.
    private static TagSeen TagOf(WalkFile file, MeasureJob job) => file.Known switch
    {
        { IsInBin: true } => TagSeen.Nothing,
        { Kind: var kind } known when kind == PhotoKind.Tag.Name() => TagOf(known),
        _ => TagLooker.Look(file.Item.Path, job.Options, job.Limits),
    };
}
