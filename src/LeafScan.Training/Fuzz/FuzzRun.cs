using System.Diagnostics;
using LeafScan.Training.Rendering.Support;
using LeafScan.Walks.Measuring;

namespace LeafScan.Training.Fuzz;

/// <summary>How much is tried.</summary>
internal sealed record FuzzOptions
{
    /// <summary>Damaged photo files, 1 to 1000000; 150 by default.</summary>
    public int Files { get; init; } = 150;

    /// <summary>Files for each other way in: one in twenty of <see cref="Files"/>, at least 12.</summary>
    public int FilesElsewhere => Math.Max(12, Files / 20);

    /// <summary>Seed; the same seed gives the same files.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>
    /// Seconds that one file may take, on the clock or of all processors, whichever is less: on a busy machine waiting is not the file's fault,
    /// on a quiet one two processors are no excuse. 5 by default. A file that takes longer is tried twice more.
    /// </summary>
    public double MostSeconds { get; init; } = 5;

    /// <summary>Memory that one file may add to what the process held before, megabytes; 1000 by default.</summary>
    public double MostMemoryMb { get; init; } = 1000;

    /// <summary>Minutes after which no more files are tried; 120 by default.</summary>
    public double MostMinutes { get; init; } = 120;

    /// <summary>Folder that receives the files at which something went wrong; null to keep none.</summary>
    public string? Keep { get; init; }
}

/// <summary>A file at which something went wrong.</summary>
/// <param name="Target">Way in.</param>
/// <param name="Number">Number of the file.</param>
/// <param name="Damage">What was done to it.</param>
/// <param name="Fault">What went wrong.</param>
internal sealed record FuzzFinding(string Target, int Number, string Damage, string Fault);

/// <summary>Tries damaged files one after the other: each must end soon, in bounded memory, in a reading or a refusal in words.</summary>
internal sealed class FuzzRun(FuzzOptions options)
{
    // A file that hangs for good cannot be stopped from outside; the run ends there.
    private static readonly TimeSpan GiveUp = TimeSpan.FromSeconds(120);

    private readonly long _start = Stopwatch.GetTimestamp();

    /// <summary>Ways in that were tried, with what came out, in order.</summary>
    public List<FuzzTally> Tallies { get; } = [];

    /// <summary>What went wrong.</summary>
    public List<FuzzFinding> Findings { get; } = [];

    /// <summary>Whether time ran out, or somebody stopped it, before all files were tried.</summary>
    public bool OutOfTime { get; private set; }

    /// <summary>Tries so many files of one way in.</summary>
    /// <param name="target">The way in.</param>
    /// <param name="count">How many files.</param>
    /// <param name="told">Told every hundred files.</param>
    /// <param name="cancel">Stops between files.</param>
    public void Try(IFuzzTarget target, int count, Action<string> told, CancellationToken cancel)
    {
        FuzzTally tally = new(target.Name);
        Tallies.Add(tally);
        for (int i = 0; i < count; i++)
        {
            if (cancel.IsCancellationRequested || Stopwatch.GetElapsedTime(_start).TotalMinutes > options.MostMinutes)
            {
                OutOfTime = true;
                return;
            }

            FuzzFile file = FileOf(target, i);
            FuzzResult result = One(target, file, tally);
            tally.Count(file, result);
            if (result.Fault is { } fault)
            {
                Findings.Add(new FuzzFinding(target.Name, i, file.Damage, fault));
                told($"{target.Name} {i}: {file.Damage}: {fault.Split('\n')[0]}");
                KeepFile(target, i, file);
            }

            if ((i + 1) % 100 == 0)
            {
                told($"{target.Name}: {i + 1} of {count}");
            }
        }
    }

    private FuzzFile FileOf(IFuzzTarget target, int number) =>
        target.Next(Chance.FromSeed(HashCodes.Of(options.Seed, target.Name, number)));

    private FuzzResult One(IFuzzTarget target, FuzzFile file, FuzzTally tally)
    {
        double before = ProcessMemory.NowMb() ?? 0;
        bool fresh = ProcessMemory.ForgetPeak();
        FuzzResult result = Timed(target, file, out double seconds);
        for (int again = 0; again < 2 && seconds > options.MostSeconds && result.Fault is null; again++)
        {
            result = Timed(target, file, out double other);
            seconds = Math.Min(seconds, other);
        }

        double added = fresh ? (ProcessMemory.PeakMb() ?? 0) - before : 0;
        tally.MostSeconds = Math.Max(tally.MostSeconds, seconds);
        tally.MostAddedMb = Math.Max(tally.MostAddedMb, added);
        return result.Fault is not null ? result
            : seconds > options.MostSeconds ? result with { Fault = FormattableString.Invariant($"took {seconds:0.0} s") }
            : added > options.MostMemoryMb ? result with { Fault = FormattableString.Invariant($"took {added:0} MB") }
            : result;
    }

    private static FuzzResult Timed(IFuzzTarget target, FuzzFile file, out double seconds)
    {
        FuzzResult? result = null;
        TimeSpan work = Environment.CpuUsage.TotalTime;
        long start = Stopwatch.GetTimestamp();
        Thread thread = new(() =>
        {
            try
            {
                result = target.Try(file);
            }
#pragma warning disable CA1031 // Whatever gets out is what is looked for.
            catch (Exception error)
#pragma warning restore CA1031
            {
                result = new FuzzResult("fault", error.ToString());
            }
        })
        { IsBackground = true };
        thread.Start();
        bool ended = thread.Join(GiveUp);
        seconds = Math.Min(Stopwatch.GetElapsedTime(start).TotalSeconds, (Environment.CpuUsage.TotalTime - work).TotalSeconds);
        return ended ? result! : throw new TimeoutException($"{target.Name}: {file.Damage}: no end after {GiveUp.TotalSeconds} s.");
    }

    private void KeepFile(IFuzzTarget target, int number, FuzzFile file)
    {
        if (options.Keep is { } keep)
        {
            Directory.CreateDirectory(keep);
            File.WriteAllBytes(Path.Combine(keep, FormattableString.Invariant($"{target.Name}-{number:00000}")), file.Bytes);
        }
    }
}
