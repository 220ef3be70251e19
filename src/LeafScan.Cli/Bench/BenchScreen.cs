using System.Globalization;
using LeafScan.Cli.Screen;

namespace LeafScan.Cli.Bench;

/// <summary>What a bench found, for people and as a document.</summary>
internal static class BenchScreen
{
    /// <summary>The table.</summary>
    public static void Write(TextWriter writer, BenchRun run, ColdRuns? cold)
    {
        TextTable table = new("work", ">seconds", ">processor seconds", ">times the floor");
        void Add(string name, BenchTimes times, double ratio) =>
            table.Add(name, Number(times.Seconds, 3), Number(times.ProcessorSeconds, 3), Number(ratio, 2));
        Add("bare decode", run.Decode, run.Decode.Seconds / run.Floor.Seconds);
        Add("floor: decode, one Lab conversion, three Gaussians", run.Floor, 1);
        Add("our reading", run.Reading, run.Ratio);
        table.WriteTo(writer);
        writer.WriteLine();
        TextTable steps = new("step of the reading", ">seconds");
        foreach ((string step, double seconds) in run.Steps)
        {
            steps.Add(step, Number(seconds, 3));
        }

        steps.WriteTo(writer);
        if (cold is { Seconds: { } coldSeconds })
        {
            string work = cold.ProcessorSeconds is { } processor ? $", {Number(processor, 2)} processor seconds" : string.Empty;
            string memory = cold.PeakMemoryMb is { } most ? $", at most {Number(most, 0)} MB of memory" : string.Empty;
            writer.WriteLine();
            writer.WriteLine($"leafscan measure from its start: {Number(coldSeconds, 2)} s{work}{memory}.");
        }
    }

    /// <summary>The document (schema leafscan.bench/1).</summary>
    public static object Document(string tool, string photo, bool made, int rounds, BenchRun run, ColdRuns? cold, ScriptRun? script) => new
    {
        schema = "leafscan.bench/1",
        tool,
        photo = new { file = Path.GetFileName(photo), madeFromDemo = made, bytes = new FileInfo(photo).Length },
        rounds,
        readingToFloorRatio = Round(run.Ratio),
        readingToFloorProcessorRatio = Round(run.ProcessorRatio),
        seconds = new { decode = Round(run.Decode.Seconds), floor = Round(run.Floor.Seconds), reading = Round(run.Reading.Seconds) },
        processorSeconds = new { decode = Round(run.Decode.ProcessorSeconds), floor = Round(run.Floor.ProcessorSeconds), reading = Round(run.Reading.ProcessorSeconds) },
        steps = run.Steps.Select(step => new { step.Step, seconds = Round(step.Seconds) }),
        readingPeakMemoryMb = run.ReadingPeakMb,
        cold,
        machine = Machine.Here(),
        scikitImage = script,
        scriptToReadingRatio = script?.Seconds / run.Reading.Seconds,
    };

    /// <summary>Four digits behind the point.</summary>
    public static double Round(double value) => Math.Round(value, 4);

    private static string Number(double value, int digits) => value.ToString("F" + digits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
}
