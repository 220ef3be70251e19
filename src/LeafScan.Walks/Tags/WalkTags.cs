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
    /// <summary>The plan with the plants that its tags tell. A walk on which nothing is new is told by the tags on record and costs nothing.</summary>
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
            // Only a refused file still asks for its plant, and the tags on record answer without a look at any photo.
            return plan with { Files = PlantByTag.Decide([.. files.Select(file => file.Known is { IsInBin: false } known && known.Kind == PhotoKind.Tag.Name() ? file with { Tag = TagOf(known) } : file)], plan.DayOf) };
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
    /// The same for one photo that comes by itself: it follows the tags that the walk has on record. What it shows of tags itself may
    /// reach back to photos that came before it, see <see cref="ReachBack"/>.
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
            .. walk.Where(known => known.Kind == PhotoKind.Tag.Name() && !known.IsInBin).Select(known => OnRecord(known, day) with { Tag = TagOf(known) }),
            newcomer with { Tag = TagLooker.Look(newcomer.Item.Path, options, limits) },
        ];
        return PlantByTag.Decide(files, _ => day)[^1];
    }

    /// <summary>
    /// What a tag that came late changes: photos of its walk that were taken after it and before the next tag, came before it, and whose
    /// plant nobody decided by hand. The rule is that of <see cref="PlantByTag"/>, so the order in which photos come makes no difference.
    /// </summary>
    /// <param name="newcomer">The photo with the tag.</param>
    /// <param name="walk">Photos of its walk on record, that one among them.</param>
    /// <param name="byHand">Photos whose plant a person decided.</param>
    /// <param name="options">How photos are measured.</param>
    /// <param name="limits">What is refused before it is decoded.</param>
    /// <returns>Photos that have another plant by it, each with what the tag tells and why; none when it shows no tag or has no capture time.</returns>
    public static IReadOnlyList<(PhotoOnRecord Photo, PlantGuess Plant)> ReachBack(
        PhotoOnRecord newcomer, IReadOnlyList<PhotoOnRecord> walk, IReadOnlySet<long> byHand, MeasureOptions options, PhotoLimits limits)
    {
        if (CaptureTime.Parse(newcomer.Taken) is not { } from)
        {
            return [];
        }

        // Before the tag nothing changes, and behind the next one nothing does; only what lies between has to be looked at again.
        PhotoOnRecord[] after =
        [
            .. walk.Where(photo => !photo.IsInBin && CaptureTime.Parse(photo.Taken) is { } taken && taken.Local.Date == from.Local.Date && taken.Local >= from.Local)
                .OrderBy(photo => CaptureTime.Parse(photo.Taken)!.Value.Local).ThenBy(photo => photo.Sha256 != newcomer.Sha256),
        ];
        PhotoOnRecord[] group = [.. after.Skip(1).TakeWhile(photo => photo.Kind != PhotoKind.Tag.Name())];
        if (after.Length == 0 || after[0].Sha256 != newcomer.Sha256 || group.Length == 0)
        {
            return [];
        }

        DateOnly day = DateOnly.FromDateTime(from.Local);
        WalkFile tag = OnRecord(newcomer, day) with { Tag = newcomer.Kind == PhotoKind.Tag.Name() ? TagOf(newcomer) : TagLooker.Look(newcomer.PathSeen, options, limits) };
        IReadOnlyList<WalkFile> decided = PlantByTag.Decide([tag, .. group.Select(File)], _ => day);
        return
        [
            .. group.Select((photo, i) => (Photo: photo, decided[i + 1].Plant))
                .Where(one => MayMove(one.Photo) && KeyOf(one.Plant.Code) != KeyOf(one.Photo.PlantCode)),
        ];

        bool MayMove(PhotoOnRecord photo) => photo.PlantBy is PlantGuess.TagWord or PlantGuess.UnknownWord && !byHand.Contains(photo.Id);

        WalkFile File(PhotoOnRecord photo) => OnRecord(photo, day) with
        {
            Plant = MayMove(photo) || photo.PlantCode is null ? new PlantGuess(null, PlantSource.Unknown, string.Empty) : new PlantGuess(photo.PlantCode, PlantSource.ByHand, string.Empty),
            Tag = TagLooker.Look(photo.PathSeen, options, limits),
        };
    }

    private static string? KeyOf(string? code) => code is null ? null : NameText.Key(code);

    private static WalkFile OnRecord(PhotoOnRecord known, DateOnly? day) => new(
        new PhotoItem(known.PathSeen, known.FileName, known.Sha256), known.Sha256, day, new PlantGuess(null, PlantSource.Unknown, string.Empty), new LeafWords(null, null), known, null, null)
    {
        Taken = CaptureTime.Parse(known.Taken),
    };

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
