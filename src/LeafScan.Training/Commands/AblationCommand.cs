using System.CommandLine;
using LeafScan.Leaves;
using LeafScan.Training.Bench;

namespace LeafScan.Training.Commands;

/// <summary>ablation: what each part of the measuring contributes.</summary>
internal static class AblationCommand
{
    public static Command Build()
    {
        BenchFolders folders = new();
        Option<string[]> parts = new("--without")
        {
            Description = $"Parts to switch off, one at a time; all of them by default: {string.Join(", ", MeasuringPart.All.Select(p => p.Name))}.",
            AllowMultipleArgumentsPerToken = true,
        };
        Option<string?> report = new("--report") { Description = "Renews the table in a Markdown file, such as docs/accuracy.md; its other text stays." };
        Command command = new("ablation", "Measures the same photos with one part of the measuring switched off at a time.") { parts, report };
        folders.AddTo(command);
        command.SetAction((parsed, cancel) => Task.FromResult(Run(parsed, cancel)));
        return command;

        int Run(ParseResult parsed, CancellationToken cancel)
        {
            string[] named = parsed.GetValue(parts) ?? [];
            if (BenchFolders.Parts(named) is not { } chosen)
            {
                return 1;
            }

            if (folders.Read(parsed, out int exitCode) is not { } cases)
            {
                return exitCode;
            }

            string table = Ablation.Over(cases, new MeasureOptions(), named.Length == 0 ? MeasuringPart.All : chosen, Console.Error.WriteLine, cancel).Table();
            if (parsed.GetValue(report) is { } file)
            {
                File.WriteAllText(file, ReportMarks.Ablation.Into(File.Exists(file) ? File.ReadAllText(file) : "", table));
            }

            Console.Out.WriteLine(table);
            return 0;
        }
    }
}
