using System.Diagnostics;
using System.Globalization;

namespace LeafScan.Cli.Bench;

/// <summary>The command measure on one photo, each time as a program of its own: what a person waits for.</summary>
/// <param name="Runs">Times that it was started; 0 when the program could not start itself.</param>
/// <param name="Seconds">Median seconds on the clock from start to end.</param>
/// <param name="ProcessorSeconds">Median seconds of all processors together; null where the system does not say.</param>
/// <param name="PeakMemoryMb">Most memory that any run held at once, megabytes (10^6 bytes); null where the system does not say.</param>
internal sealed record ColdRuns(int Runs, double? Seconds, double? ProcessorSeconds, double? PeakMemoryMb)
{
    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(5);

    /// <summary>Starts the program.</summary>
    /// <param name="programFolder">Folder of the program's own files.</param>
    /// <param name="photo">The photo.</param>
    /// <param name="runs">How often.</param>
    /// <param name="cancel">Stops between runs.</param>
    public static ColdRuns Of(string programFolder, string photo, int runs, CancellationToken cancel)
    {
        string program = Path.Combine(programFolder, "leafscan.dll");
        if (!File.Exists(program))
        {
            return new ColdRuns(0, null, null, null);
        }

        List<double> wall = [];
        List<double> work = [];
        double? peak = null;
        string document = Path.GetTempFileName();
        try
        {
            for (int i = 0; i < runs; i++)
            {
                cancel.ThrowIfCancellationRequested();
                (double seconds, double? processor, double? most) = One(program, photo, document);
                wall.Add(seconds);
                peak = most is null ? peak : Math.Max(peak ?? 0, most.Value);
                if (processor is { } known)
                {
                    work.Add(known);
                }
            }
        }
        finally
        {
            File.Delete(document);
        }

        return new ColdRuns(runs, BenchTimes.Median(wall), work.Count == 0 ? null : BenchTimes.Median(work), peak);
    }

    private static (double Seconds, double? Processor, double? PeakMb) One(string program, string photo, string document)
    {
        long start = Stopwatch.GetTimestamp();
        using Process run = Process.Start(new ProcessStartInfo("dotnet", ["exec", program, "measure", photo, "--json", document]) { RedirectStandardOutput = true, RedirectStandardError = true })
            ?? throw new CommandException(ExitCode.StoreTrouble, "The program could not start itself. Nothing was measured.");
        run.BeginOutputReadLine();
        run.BeginErrorReadLine();
        double? processor = null, peak = null;

        // The system forgets both when the program ends: the last look before that counts.
        while (!run.WaitForExit(Look))
        {
            processor = ProcessorOf(run.Id) ?? processor;
            peak = PeakOf(run.Id) ?? peak;
        }

        double seconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
        return run.ExitCode == ExitCode.Done
            ? (seconds, processor, peak)
            : throw new CommandException(ExitCode.NothingMeasurable, $"The program could not measure {Path.GetFileName(photo)} when it was started by itself. Run: leafscan measure \"{photo}\"");
    }

    // proc(5): fields 14 and 15 are ticks of a hundredth of a second; the name before them may hold blanks.
    private static double? ProcessorOf(int id) => Text($"/proc/{id}/stat") is { } text && text.LastIndexOf(')') is > 0 and int end
        && text[(end + 2)..].Split(' ') is { Length: > 12 } fields
        && long.TryParse(fields[11], CultureInfo.InvariantCulture, out long user) && long.TryParse(fields[12], CultureInfo.InvariantCulture, out long system)
            ? (user + system) / 100.0
            : null;

    private static double? PeakOf(int id) => Text($"/proc/{id}/status")?.Split('\n').FirstOrDefault(line => line.StartsWith("VmHWM", StringComparison.Ordinal)) is { } line
        && double.TryParse(line.Split(':', 2)[1].Trim().Split(' ')[0], CultureInfo.InvariantCulture, out double kibibytes)
            ? Math.Round(kibibytes * 1024 / 1e6)
            : null;

    private static string? Text(string file)
    {
        try
        {
            return File.ReadAllText(file);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }
}
