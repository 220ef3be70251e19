using LeafScan.Cli.Screen;
using LeafScan.Records;
using LeafScan.Walks;
using LeafScan.Walks.Measuring;

namespace LeafScan.Cli.Walks;

/// <summary>Adds a walk while somebody watches: progress, and what is safe when it breaks off.</summary>
internal static class WalkRun
{
    /// <summary>Measures and records what is new.</summary>
    /// <exception cref="CommandException">Nothing tells the day of a photo; nothing was added.</exception>
    public static async Task<WalkOutcome> AddAsync(
        RecordStore store, string place, Surroundings world, WalkPlan plan, MeasureJob job, Func<Exception, string?> log, CancellationToken cancel, string command = "walk add")
    {
        if (plan.FirstWithoutDay is { } dayless)
        {
            throw new CommandException(
                ExitCode.WrongUse,
                $"No photo in the folder says when it was taken (for example {dayless.Item.Label}). Nothing was added. Give the day of the walk with --date 2026-07-02.");
        }

        WalkOutcome outcome = new();
        using ProgressTeller progress = new(world, "Measuring", plan.Files.Count(file => file.IsNew));
        try
        {
            await new WalkAdder(store, place, command).AddAsync(plan, job, outcome, progress.Step, log, cancel).ConfigureAwait(false);
        }
        catch (Exception error) when (error is RecordException or IOException)
        {
            world.Err.WriteLine($"Before the trouble: {outcome.Counts}; those are safe.");
            throw;
        }

        return outcome;
    }
}
