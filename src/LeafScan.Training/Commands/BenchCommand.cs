using System.CommandLine;
using LeafScan.Leaves;
using LeafScan.Training.Bench;

namespace LeafScan.Training.Commands;

/// <summary>bench: how accurate the measuring is, on photos whose truth is known.</summary>
internal static class BenchCommand
{
    public static Command Build()
    {
        BenchFolders folders = new();
        Option<string?> json = new("--json") { Description = "Writes all figures and rows to a file; - is standard output." };
        Option<string?> report = new("--report") { Description = "Renews the figures in a Markdown file, such as docs/accuracy.md; its other text stays." };
        Option<string?> compare = new("--compare") { Description = "JSON of an earlier run; says what got worse." };
        Option<string?> worst = new("--worst") { Description = "JPEG of the ten photos with the largest error of damage: photo, truth, reading; beside it NAME.specks.jpg with the ten worst in specks." };
        Option<string[]> without = new("--without")
        {
            Description = $"Switches parts of the measuring off: {string.Join(", ", MeasuringPart.All.Select(p => p.Name))}.",
            AllowMultipleArgumentsPerToken = true,
        };
        Command command = new("bench", "Measures photos with known truth and says how accurate the reading is.") { json, report, compare, worst, without };
        folders.AddTo(command);
        command.SetAction((parsed, cancel) =>
        {
            string? earlier = parsed.GetValue(compare);
            if (earlier is not null && !File.Exists(earlier))
            {
                Console.Error.WriteLine($"There is no earlier run \"{earlier}\"; nothing was measured. Make one with --json first.");
                return Task.FromResult(1);
            }

            if (BenchFolders.Parts(parsed.GetValue(without) ?? []) is not { } parts)
            {
                return Task.FromResult(1);
            }

            if (folders.Read(parsed, out int exitCode) is not { } cases)
            {
                return Task.FromResult(exitCode);
            }

            MeasureOptions options = parts.Aggregate(new MeasureOptions(), (o, part) => part.Without(o));
            BenchDocument run = BenchRun.Over(cases, options, Console.Error.WriteLine, cancel);
            Write(run, parsed.GetValue(json), parsed.GetValue(report), earlier);
            if (parsed.GetValue(worst) is { } sheet)
            {
                Worst(run, cases, options, sheet, parsed.GetValue(json) == "-" ? Console.Error : Console.Out, cancel);
            }

            return Task.FromResult(0);
        });
        return command;
    }

    private static void Write(BenchDocument run, string? json, string? report, string? compare)
    {
        string tables = ReportWriter.Tables(run);
        if (json is not null and not "-")
        {
            File.WriteAllText(json, run.ToJson() + "\n");
        }

        if (report is not null)
        {
            File.WriteAllText(report, ReportMarks.Figures.Into(File.Exists(report) ? File.ReadAllText(report) : "", tables));
        }

        Console.Out.WriteLine(json == "-" ? run.ToJson() : tables);
        if (compare is not null)
        {
            TextWriter to = json == "-" ? Console.Error : Console.Out;
            to.WriteLine(ReportWriter.Comparison(RunComparison.Of(BenchDocument.FromJson(File.ReadAllText(compare)), run)));
        }
    }

    private static void Worst(BenchDocument run, IReadOnlyList<TruthCase> cases, MeasureOptions options, string path, TextWriter to, CancellationToken cancel)
    {
        IReadOnlyList<PhotoRow> damage = WorstCases.ByDamage(run.Photos);
        IReadOnlyList<PhotoRow> specks = WorstCases.BySpecks(run.Photos);
        to.WriteLine(WorstCases.Table("Largest errors of damage", damage));
        to.WriteLine(WorstCases.Table("Lowest F1 of specks", specks));
        WorstSheet.Write(damage, cases, options, path, cancel);
        WorstSheet.Write(specks, cases, options, Path.ChangeExtension(path, ".specks.jpg"), cancel);
    }
}
