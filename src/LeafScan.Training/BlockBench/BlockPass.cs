using System.Diagnostics;
using LeafScan.Records;
using LeafScan.Walks;
using LeafScan.Walks.Blocks;
using LeafScan.Walks.Measuring;

namespace LeafScan.Training.BlockBench;

/// <summary>A block measured once into a fresh record, in the way in which the command score does it.</summary>
/// <param name="Jobs">Photos at the same time.</param>
/// <param name="Photos">Photos that were measured.</param>
/// <param name="Refused">Photos that were refused.</param>
/// <param name="Seconds">Seconds on the clock, from the first look at a file to the last photo on record.</param>
/// <param name="ProcessorSeconds">Seconds of all processors together.</param>
/// <param name="Memory">Memory along the way; empty where the system does not say.</param>
internal sealed record BlockPass(int Jobs, int Photos, int Refused, double Seconds, double ProcessorSeconds, IReadOnlyList<MemoryMark> Memory)
{
    /// <summary>Photos a second.</summary>
    public double PhotosPerSecond => (Photos + Refused) / Seconds;

    /// <summary>Measures the block.</summary>
    /// <param name="paths">Its photos, in one folder.</param>
    /// <param name="jobs">Photos at the same time.</param>
    /// <param name="markEvery">Photos from one look at the memory to the next.</param>
    /// <param name="told">Told how far it is.</param>
    /// <param name="cancel">Stops.</param>
    public static async Task<BlockPass> OfAsync(IReadOnlyList<string> paths, int jobs, int markEvery, Action<string> told, CancellationToken cancel)
    {
        string data = Directory.CreateTempSubdirectory("leafscan-block-").FullName;
        try
        {
            using RecordStore store = RecordStore.Open(data, TimeProvider.System);
            List<MemoryMark> marks = [];
            bool counts = ProcessMemory.ForgetPeak();
            TimeSpan work = Environment.CpuUsage.TotalTime;
            long start = Stopwatch.GetTimestamp();
            WalkPlan plan = WalkPlan.Make(Path.GetDirectoryName(paths[0])!, PhotoNames.Give(paths), new DateOnly(2026, 7, 2), store.FindPhoto, TimeProvider.System, cancel, RowPosition.Decide);
            WalkOutcome outcome = new();
            int done = 0;
            void Step()
            {
                if (++done % markEvery != 0 && done != paths.Count)
                {
                    return;
                }

                if (counts && ProcessMemory.PeakMb() is { } most)
                {
                    marks.Add(new MemoryMark(done, most, ProcessMemory.NowMb() ?? 0));
                    ProcessMemory.ForgetPeak();
                }

                told(FormattableString.Invariant($"--jobs {jobs}: {done} of {paths.Count}, {done / Stopwatch.GetElapsedTime(start).TotalSeconds:0.00} a second"));
            }

            await new WalkAdder(store, "Nursery", "score").AddAsync(plan, new MeasureJob { Workers = jobs }, outcome, Step, Fault, cancel).ConfigureAwait(false);
            cancel.ThrowIfCancellationRequested();
            return new BlockPass(
                jobs, outcome.Added.Count, outcome.Refused.Count, Stopwatch.GetElapsedTime(start).TotalSeconds, (Environment.CpuUsage.TotalTime - work).TotalSeconds, marks);
        }
        finally
        {
            Directory.Delete(data, recursive: true);
        }
    }

    private static string? Fault(Exception error)
    {
        Console.Error.WriteLine(error);
        return null;
    }
}

/// <summary>Memory of the process when so many photos were done, megabytes (10^6 bytes).</summary>
/// <param name="Photos">Photos done.</param>
/// <param name="MostMb">Most memory held at once since the mark before.</param>
/// <param name="NowMb">Memory held at that moment.</param>
internal sealed record MemoryMark(int Photos, double MostMb, double NowMb);
