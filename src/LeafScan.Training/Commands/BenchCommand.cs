using System.CommandLine;
using LeafScan.Leaves;
using LeafScan.Training.Bench;

namespace LeafScan.Training.Commands;

/// <summary>bench: how accurate the measuring is, on photos whose truth is known.</summary>
internal static class BenchCommand
{
    public static Command Build()
    {
        Argument<string[]> folders = new("FOLDER") { Description = "Folders with photos and their truth.", Arity = ArgumentArity.OneOrMore };
        Option<string?> json = new("--json") { Description = "Writes all figures and rows to a file; - is standard output." };
        Option<string?> report = new("--report") { Description = "Renews the figures in a Markdown file, such as docs/accuracy.md; its other text stays." };
        Option<string?> compare = new("--compare") { Description = "JSON of an earlier run; says what got worse." };
        Command command = new("bench", "Measures photos with known truth and says how accurate the reading is.") { folders, json, report, compare };
        command.SetAction((parsed, cancel) => Task.FromResult(
            Run(parsed.GetValue(folders)!, parsed.GetValue(json), parsed.GetValue(report), parsed.GetValue(compare), cancel)));
        return command;
    }

    private static int Run(string[] folders, string? json, string? report, string? compare, CancellationToken cancel)
    {
        if (folders.FirstOrDefault(f => !Directory.Exists(f)) is { } missing)
        {
            Console.Error.WriteLine($"There is no folder \"{missing}\"; nothing was measured. Check the name and try again.");
            return 1;
        }

        if (compare is not null && !File.Exists(compare))
        {
            Console.Error.WriteLine($"There is no earlier run \"{compare}\"; nothing was measured. Make one with --json first.");
            return 1;
        }

        BenchDocument run = BenchRun.Over(folders, new MeasureOptions(), Console.Error.WriteLine, cancel);
        if (run.Photos.Count == 0)
        {
            Console.Error.WriteLine("No photo with truth lies in these folders; see docs/accuracy.md for the names that are looked for.");
            return 3;
        }

        string tables = ReportWriter.Tables(run);
        if (json is not null and not "-")
        {
            File.WriteAllText(json, run.ToJson() + "\n");
        }

        if (report is not null)
        {
            File.WriteAllText(report, ReportWriter.Into(File.Exists(report) ? File.ReadAllText(report) : "", tables));
        }

        Console.Out.WriteLine(json == "-" ? run.ToJson() : tables);
        if (compare is not null)
        {
            TextWriter to = json == "-" ? Console.Error : Console.Out;
            to.WriteLine(ReportWriter.Comparison(RunComparison.Of(BenchDocument.FromJson(File.ReadAllText(compare)), run)));
        }

        return 0;
    }
}
