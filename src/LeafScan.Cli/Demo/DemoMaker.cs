using LeafScan.Cli.Walks;
using LeafScan.Photos;
using LeafScan.Records;
using LeafScan.Walks;
using LeafScan.Walks.Measuring;

namespace LeafScan.Cli.Demo;

/// <summary>
/// Does the main job on the demo photos: copies them, adds both walks to a record of their own, notes the care. May be run
/// again in the same folder: nothing is doubled.
/// </summary>
internal sealed class DemoMaker(DemoStory story, string samples, string folder, Surroundings world)
{
    /// <summary>Folder of the copied photos.</summary>
    public string PhotosFolder { get; } = Path.Combine(folder, "photos");

    /// <summary>Folder of the overlays.</summary>
    public string OverlaysFolder { get; } = Path.Combine(folder, "overlays");

    /// <summary>Makes the demo's record.</summary>
    /// <param name="store">Record in the demo's folder.</param>
    /// <param name="workers">Photos measured at the same time.</param>
    /// <param name="log">Takes the details of a fault of our own.</param>
    /// <param name="cancel">Stops; what was made stays.</param>
    /// <returns>What adding each walk did.</returns>
    public async Task<IReadOnlyList<WalkOutcome>> MakeAsync(RecordStore store, int workers, Func<Exception, string?> log, CancellationToken cancel)
    {
        RefuseOtherRecord(store);
        List<WalkOutcome> outcomes = [];
        foreach (DemoStory.WalkFolder walk in story.Walks)
        {
            string photos = CopyPhotos(walk);
            IReadOnlyList<PhotoItem> items = PhotoNames.Give(PhotoFolder.List(photos, world.Time.GetUtcNow().AddSeconds(1)).Files);
            WalkPlan plan = WalkPlan.Make(photos, items, walk.Date, store.FindPhoto, world.Time, cancel);
            MeasureJob job = new() { Workers = workers, OverlaysFolder = Path.Combine(OverlaysFolder, walk.Folder) };
            outcomes.Add(await WalkRun.AddAsync(store, story.Place.Name, world, plan, job, log, cancel).ConfigureAwait(false));
            if (outcomes[^1].Stopped)
            {
                throw new OperationCanceledException(cancel);
            }
        }

        Describe(store);
        return outcomes;
    }

    private string CopyPhotos(DemoStory.WalkFolder walk)
    {
        string from = Path.Combine(samples, walk.Folder);
        string to = Path.Combine(PhotosFolder, walk.Folder);
        foreach (string file in Directory.EnumerateFiles(from, "*", SearchOption.AllDirectories))
        {
            string target = Path.Combine(to, Path.GetRelativePath(from, file));
            Directory.CreateDirectory(Path.GetDirectoryName(target)!);
            File.Copy(file, target, overwrite: true);
        }

        return to;
    }

    private void Describe(RecordStore store)
    {
        foreach (DemoStory.PlantWords words in story.Plants)
        {
            if (store.FindPlants(words.Code, story.Place.Name) is [{ } plant])
            {
                store.DescribePlant(plant.Id, words.Name, words.Species, "demo");
            }
        }

        foreach (DemoStory.CareWords words in story.Care)
        {
            CareKind what = Enum.Parse<CareKind>(words.What, ignoreCase: true);
            if (store.FindPlants(words.Plant, story.Place.Name) is [{ } plant]
                && !store.CareOfPlant(plant.Id).Any(entry => entry.DoneOn == words.Date && entry.What == what))
            {
                store.AddCare(plant.Id, words.Date, what, words.Note);
            }
        }
    }

    private void RefuseOtherRecord(RecordStore store)
    {
        if (store.Places().FirstOrDefault(place => place.Name != story.Place.Name) is { } own)
        {
            throw new CommandException(
                ExitCode.WrongUse,
                $"{folder} holds a record with the place \"{own.Name}\"; the demo does not mix with it. Nothing was changed. Name another folder with --out.");
        }
    }
}
