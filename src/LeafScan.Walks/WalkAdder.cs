using LeafScan.Leaves;
using LeafScan.Leaves.Greenness;
using LeafScan.Leaves.Kinds;
using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Records;
using LeafScan.Walks.Measuring;

namespace LeafScan.Walks;

/// <summary>
/// Brings a walk's folder into the record, photo by photo: each is committed when it is measured, so that a run may be cut
/// off anywhere and repeated with the same result.
/// </summary>
/// <param name="store">The record.</param>
/// <param name="placeName">Place of the walk; begun when it is new.</param>
/// <param name="command">Name of the run in the record.</param>
public sealed class WalkAdder(RecordStore store, string placeName, string command = "walk add")
{
    private readonly Dictionary<DateOnly, long> _walks = [];
    private long? _placeId;

    /// <summary>Measures and records what is new.</summary>
    /// <param name="plan">What the folder holds.</param>
    /// <param name="job">How to measure.</param>
    /// <param name="outcome">Takes what became of each file, from the first on: what it holds when this fails is safe in the record.</param>
    /// <param name="step">Told after each measured photo; null for nobody.</param>
    /// <param name="log">Takes the details of a fault of our own.</param>
    /// <param name="cancel">Stops; what is committed stays.</param>
    public async Task AddAsync(
        WalkPlan plan, MeasureJob job, WalkOutcome outcome, Action? step, Func<Exception, string?> log, CancellationToken cancel)
    {
        List<WalkFile> fresh = [.. plan.Files.Where(file => file.IsNew)];
        if (plan.FirstWithoutDay is { } dayless)
        {
            throw new ArgumentException($"Nothing tells the day of {dayless.Item.Label}.", nameof(plan));
        }

        outcome.Planned = fresh.Count;
        foreach (WalkFile file in plan.Files.Where(file => file.Refusal is null && !file.IsNew))
        {
            outcome.AlreadyHere.Add(file.Known is { } known
                ? new KnownPhoto(file.Item.Label, known.FileName, known.PlantCode, known.WalkedOn)
                : new KnownPhoto(file.Item.Label, file.TwinOf!, file.Plant.Code, plan.DayOf(file)));
        }

        long run = store.StartRun(command, ToolVersion.Current);
        RunEnding ending = RunEnding.Failed;
        try
        {
            foreach (WalkFile file in plan.Files.Where(file => file.Refusal is not null))
            {
                Refuse(plan, file, file.Refusal!, run, outcome);
            }

            await MeasureAsync(plan, fresh, job, step, log, run, outcome, cancel).ConfigureAwait(false);
            ending = RunEnding.Finished;
        }
        catch (OperationCanceledException)
        {
            ending = RunEnding.Stopped;
            outcome.Stopped = true;
        }
        finally
        {
            End(run, ending, outcome);
        }
    }

    private async Task MeasureAsync(
        WalkPlan plan, List<WalkFile> fresh, MeasureJob job, Action? step, Func<Exception, string?> log, long run, WalkOutcome outcome, CancellationToken cancel)
    {
        job = job with
        {
            Tags = fresh.Where(file => file.Tag.Any).ToDictionary(file => file.Item.Path, file => file.Tag),
            Healthy = HealthyColours(fresh),
        };
        ReadingOrigin origin = new(ToolVersion.Current, job.Options.Hash(), LearnedModels.VersionInUse);
        await MeasureRun.EachAsync(
            [.. fresh.Select(file => file.Item)],
            job,
            (i, result) =>
            {
                WalkFile file = fresh[i];
                if (result.Refusal is { } refusal)
                {
                    Refuse(plan, file, refusal, run, outcome);
                }
                else
                {
                    Keep(plan, file, result, job.Healthy.ContainsKey(file.Item.Path) ? origin with { OptionsHash = job.OptionsOf(file.Item.Path).Hash() } : origin, run, outcome);
                }

                step?.Invoke();
            },
            log,
            cancel).ConfigureAwait(false);
    }

    // Of plants that are on record with one: what a new plant looks like in health nobody has said.
    private Dictionary<string, HealthyColour> HealthyColours(List<WalkFile> files)
    {
        Dictionary<string, HealthyColour> colours = new(StringComparer.Ordinal);
        foreach (IGrouping<string, WalkFile> plant in files.Where(file => file.Plant.Code is not null).GroupBy(file => file.Plant.Code!, StringComparer.OrdinalIgnoreCase))
        {
            if (store.FindPlants(plant.Key, placeName) is [{ Facts.Healthy: { } healthy }])
            {
                foreach (WalkFile file in plant)
                {
                    colours[file.Item.Path] = healthy.Colour;
                }
            }
        }

        return colours;
    }

    private void Keep(WalkPlan plan, WalkFile file, PhotoResult result, ReadingOrigin origin, long run, WalkOutcome outcome)
    {
        DateOnly day = plan.DayOf(file)!.Value;
        PhotoReading reading = result.Reading! with { Flags = [.. result.Reading!.Flags, .. file.Doubts] };
        PhotoRecorded recorded = store.RecordPhoto(new NewPhoto
        {
            WalkId = WalkOf(day),
            Facts = result.Facts!,
            Reading = reading,
            Origin = origin,
            Plant = file.Plant,
            LeafAge = file.Leaf.Age,
            LeafTag = file.Leaf.Tag,
            RunId = run,
        });
        if (recorded.Added)
        {
            outcome.Added.Add(new AddedPhoto(file.Item.Label, recorded.Photo.PlantCode, day, PhotoSummary.Of(reading))
            {
                PlantGuess = file.Plant,
                PlantUnsure = file.PlantUnsure,
                IsTagPhoto = reading.Kind == PhotoKind.Tag.Name(),
                TagUnread = file.Tag.Unread,
            });
        }
        else
        {
            // Another command was quicker.
            outcome.AlreadyHere.Add(new KnownPhoto(file.Item.Label, recorded.Photo.FileName, recorded.Photo.PlantCode, recorded.Photo.WalkedOn));
        }
    }

    private void Refuse(WalkPlan plan, WalkFile file, PhotoRefusal refusal, long run, WalkOutcome outcome)
    {
        outcome.Refused.Add(refusal);
        // Without a day there is no walk to which the refusal could belong; it is told on the screen all the same.
        if (plan.DayOf(file) is { } day)
        {
            store.RecordRefusal(new NewRefusal { WalkId = WalkOf(day), PathSeen = file.Item.Path, Sha256 = file.Sha256, Refusal = refusal, RunId = run });
        }
    }

    private long WalkOf(DateOnly day)
    {
        if (!_walks.TryGetValue(day, out long walk))
        {
            _placeId ??= store.FindOrAddPlace(placeName).Id;
            walk = store.FindOrAddWalk(_placeId.Value, day).Id;
            _walks[day] = walk;
        }

        return walk;
    }

    private void End(long run, RunEnding ending, WalkOutcome outcome)
    {
        try
        {
            store.EndRun(run, ending, new RunCounts(outcome.Added.Count, outcome.AlreadyHere.Count, outcome.Refused.Count));
        }
        catch (RecordException) when (ending == RunEnding.Failed)
        {
            // The first trouble is on its way to the person; a run without an end says that it was cut off.
        }
    }
}
