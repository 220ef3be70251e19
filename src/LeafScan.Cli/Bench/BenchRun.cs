using System.Diagnostics;
using LeafScan.Walks.Measuring;

namespace LeafScan.Cli.Bench;

/// <summary>Times of one kind of work.</summary>
/// <param name="Wall">Seconds on the clock, one a round.</param>
/// <param name="Processor">Seconds of all processors together, one a round.</param>
internal sealed record BenchTimes(List<double> Wall, List<double> Processor)
{
    /// <summary>Median of the seconds on the clock.</summary>
    public double Seconds => Median(Wall);

    /// <summary>Median of the seconds of all processors together.</summary>
    public double ProcessorSeconds => Median(Processor);

    /// <summary>Middle value.</summary>
    public static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted.Length == 0 ? double.NaN : (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
    }
}

/// <summary>
/// Times decode, floor and reading in turn, round after round, so that whatever else the machine does falls on all three
/// alike; medians are taken over the rounds.
/// </summary>
internal sealed class BenchRun
{
    private readonly Dictionary<string, List<double>> _steps = new(StringComparer.Ordinal);

    /// <summary>Bare decode.</summary>
    public BenchTimes Decode { get; } = new([], []);

    /// <summary>The floor.</summary>
    public BenchTimes Floor { get; } = new([], []);

    /// <summary>Our reading.</summary>
    public BenchTimes Reading { get; } = new([], []);

    /// <summary>Most memory during a reading, megabytes; null where the system does not say.</summary>
    public double? ReadingPeakMb { get; private set; }

    /// <summary>Reading over floor: the median over rounds of the ratio of two neighbours in time.</summary>
    public double Ratio => BenchTimes.Median(Reading.Wall.Zip(Floor.Wall, (reading, floor) => reading / floor));

    /// <summary>The same for seconds of all processors together.</summary>
    public double ProcessorRatio => BenchTimes.Median(Reading.Processor.Zip(Floor.Processor, (reading, floor) => reading / floor));

    /// <summary>Median seconds of the steps of a reading, in order of length.</summary>
    public IEnumerable<(string Step, double Seconds)> Steps =>
        _steps.Select(step => (step.Key, BenchTimes.Median(step.Value))).OrderByDescending(step => step.Item2);

    /// <summary>Runs.</summary>
    /// <param name="photo">The photo.</param>
    /// <param name="rounds">Rounds that count; one before them warms up.</param>
    /// <param name="told">Told before each round.</param>
    /// <param name="cancel">Stops between works.</param>
    public static BenchRun Of(string photo, int rounds, Action<int> told, CancellationToken cancel)
    {
        BenchRun run = new();
        using StepClock clock = new();
        for (int round = 0; round <= rounds; round++)
        {
            told(round);
            bool counts = round > 0;
            Time(counts ? run.Decode : null, () => BenchWork.Decode(photo), cancel);
            Time(counts ? run.Floor : null, () => BenchWork.Floor(photo), cancel);
            clock.Take();
            bool fresh = ProcessMemory.ForgetPeak();
            Time(counts ? run.Reading : null, () => BenchWork.Read(photo), cancel);
            if (counts)
            {
                run.ReadingPeakMb = fresh ? Math.Max(run.ReadingPeakMb ?? 0, ProcessMemory.PeakMb() ?? 0) : null;
                foreach ((string step, double seconds) in clock.Take())
                {
                    (run._steps.TryGetValue(step, out List<double>? all) ? all : run._steps[step] = []).Add(seconds);
                }
            }
        }

        return run;
    }

    private static void Time(BenchTimes? to, Action work, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();

        // What the work before left behind is not this one's to clear up.
        GC.Collect();
        GC.WaitForPendingFinalizers();
        using Process self = Process.GetCurrentProcess();
        TimeSpan before = self.TotalProcessorTime;
        long start = Stopwatch.GetTimestamp();
        work();
        double wall = Stopwatch.GetElapsedTime(start).TotalSeconds;
        self.Refresh();
        to?.Wall.Add(wall);
        to?.Processor.Add((self.TotalProcessorTime - before).TotalSeconds);
    }
}
