using LeafScan.Cli.Screen;
using LeafScan.Walks;
using LeafScan.Walks.Measuring;
using LeafScan.Walks.Tags;

namespace LeafScan.Cli.Walks;

/// <summary>Reads the tags of a folder's photos while somebody watches.</summary>
internal static class TagSearch
{
    /// <summary>The plan with the plants that its tags tell.</summary>
    public static async Task<WalkPlan> ReadAsync(Surroundings world, WalkPlan plan, MeasureJob job, CancellationToken cancel)
    {
        using ProgressTeller progress = new(world, "Looking for tags", WalkTags.Count(plan));
        return await WalkTags.ReadAsync(plan, job, progress.Step, cancel).ConfigureAwait(false);
    }
}
