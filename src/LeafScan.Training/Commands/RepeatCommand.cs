using System.CommandLine;
using LeafScan.Leaves;
using LeafScan.Training.Bench;
using LeafScan.Training.Bench.Repeat;

namespace LeafScan.Training.Commands;

/// <summary>repeat: how far readings of one leaf lie apart when it is shot again.</summary>
internal static class RepeatCommand
{
    public static Command Build()
    {
        BenchFolders folders = new();
        Option<int> shots = new("--shots") { Description = "Shots of each photo, 2 to 100; 5 by default.", DefaultValueFactory = _ => 5 };
        Option<int> seed = new("--seed") { Description = "Seed of the shots; 1 by default. The same seed gives the same shots.", DefaultValueFactory = _ => 1 };
        Option<string?> report = new("--report") { Description = "Renews the tables in a Markdown file, such as docs/accuracy.md; its other text stays." };
        Option<string?> keep = new("--out") { Description = "Folder that keeps the shots as JPEG, to be looked at; without it they are deleted." };
        Command command = new("repeat", "Shoots photos again in software, with other light, tilt, distance, blur, noise and compression, and says how far the readings lie apart.") { shots, seed, report, keep };
        folders.AddTo(command);
        command.SetAction((parsed, cancel) => Task.FromResult(Run(parsed, cancel)));
        return command;

        int Run(ParseResult parsed, CancellationToken cancel)
        {
            int count = parsed.GetValue(shots);
            if (count is < 2 or > 100)
            {
                Console.Error.WriteLine($"{count} shots cannot be compared; nothing was measured. Give --shots a number from 2 to 100.");
                return 1;
            }

            if (folders.Read(parsed, out int exitCode) is not { } cases)
            {
                return exitCode;
            }

            string? kept = parsed.GetValue(keep);
            DirectoryInfo work = kept is null ? Directory.CreateTempSubdirectory("leafscan-shots") : Directory.CreateDirectory(kept);
            try
            {
                IReadOnlyList<LeafRepeat> leaves = RepeatRun.Over(cases, count, parsed.GetValue(seed), new MeasureOptions(), work.FullName, Console.Error.WriteLine, cancel);
                string tables = RepeatReport.Tables(leaves);
                if (parsed.GetValue(report) is { } file)
                {
                    File.WriteAllText(file, ReportMarks.Repeat.Into(File.Exists(file) ? File.ReadAllText(file) : "", tables));
                }

                Console.Out.WriteLine(tables);
                return 0;
            }
            finally
            {
                if (kept is null)
                {
                    work.Delete(true);
                }
            }
        }
    }
}
