using LeafScan.Leaves.Learned;

namespace LeafScan.Walks.Measuring;

/// <summary>Measures many files side by side. Memory stays flat: a worker holds one photo, results hold no pixels.</summary>
public static class MeasureRun
{
    /// <summary>Measures all files.</summary>
    /// <param name="items">The files.</param>
    /// <param name="job">How.</param>
    /// <param name="done">Told of each file when it is done, one at a time, in the order of finishing.</param>
    /// <param name="log">Takes the details of a fault of our own; says where they are.</param>
    /// <param name="cancel">Stops: photos in hand are dropped, those done stay done.</param>
    /// <returns>Results in the order of <paramref name="items"/>.</returns>
    /// <exception cref="OperationCanceledException">It was stopped; <paramref name="done"/> has seen what was finished.</exception>
    public static async Task<IReadOnlyList<PhotoResult>> MeasureAsync(
        IReadOnlyList<PhotoItem> items, MeasureJob job, Action<PhotoResult> done, Func<Exception, string?> log, CancellationToken cancel)
    {
        PhotoResult[] results = new PhotoResult[items.Count];
        await EachAsync(items, job, (i, result) => done(results[i] = result), log, cancel).ConfigureAwait(false);
        return results;
    }

    /// <summary>The same without keeping the results: a thousand readings with all their specks weigh as much as a photo's pixels.</summary>
    /// <param name="items">The files.</param>
    /// <param name="job">How.</param>
    /// <param name="done">Told of each file when it is done, with its number, one at a time, in the order of finishing.</param>
    /// <param name="log">Takes the details of a fault of our own; says where they are.</param>
    /// <param name="cancel">Stops: photos in hand are finished or dropped, as the job says; those done stay done.</param>
    /// <exception cref="OperationCanceledException">It was stopped; <paramref name="done"/> has seen what was finished.</exception>
    public static async Task EachAsync(
        IReadOnlyList<PhotoItem> items, MeasureJob job, Action<int, PhotoResult> done, Func<Exception, string?> log, CancellationToken cancel)
    {
        int workers = Math.Max(1, Math.Min(job.Workers, items.Count));
        LearnedModels.ShareProcessors(workers, Environment.ProcessorCount);
        if (job.Options.Kind is null)
        {
            LearnedModels.LoadKindsMeanwhile();
        }

        Lock gate = new();
        ParallelOptions parallel = new() { MaxDegreeOfParallelism = workers, CancellationToken = cancel };
        await Parallel.ForEachAsync(Enumerable.Range(0, items.Count), parallel, (i, stop) =>
        {
            PhotoResult result = OnePhoto.Measure(items[i], job, log, job.FinishInHand ? CancellationToken.None : stop);
            lock (gate)
            {
                done(i, result);
            }

            return ValueTask.CompletedTask;
        }).ConfigureAwait(false);
    }
}
