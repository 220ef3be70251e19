using System.CommandLine;
using System.Text.Json;
using LeafScan.Training.Fuzz;

namespace LeafScan.Training.Commands;

/// <summary>fuzz: damaged files through every way in.</summary>
internal static class FuzzCommand
{
    private static readonly JsonSerializerOptions Layout = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, WriteIndented = true };

    public static Command Build()
    {
        FuzzOptions usual = new();
        Option<int> files = new("--files") { Description = $"Damaged photo files, 1 to 1000000; each other way in gets a twentieth of it, at least 12. {usual.Files} by default.", DefaultValueFactory = _ => usual.Files };
        Option<int> seed = new("--seed") { Description = "Seed; the same seed gives the same files. 1 by default.", DefaultValueFactory = _ => usual.Seed };
        Option<double> minutes = new("--minutes") { Description = $"Minutes after which no more is tried; {usual.MostMinutes} by default.", DefaultValueFactory = _ => usual.MostMinutes };
        Option<string[]> only = new("--only") { Description = "Only these ways in, by the names of the table.", AllowMultipleArgumentsPerToken = true };
        Option<bool> byDamage = new("--by-damage") { Description = "Also a table of what came of each kind of damage." };
        Option<string?> keep = new("--out") { Description = "Folder that receives the files at which something went wrong.", HelpName = "DIR" };
        Option<string?> json = new("--json") { Description = "Also writes the counts as JSON.", HelpName = "FILE" };
        Command command = new("fuzz", "Damages files by chance and gives them to the photo gate, to the record's importers and to the readers of documents: none may crash, hang, fill the memory or pass for sound.")
        {
            files, seed, minutes, only, byDamage, keep, json,
        };
        command.SetAction((parsed, cancel) => Task.FromResult(Run(
            new FuzzOptions { Files = parsed.GetValue(files), Seed = parsed.GetValue(seed), MostMinutes = parsed.GetValue(minutes), Keep = parsed.GetValue(keep) },
            parsed.GetValue(only) ?? [], parsed.GetValue(byDamage), parsed.GetValue(json), cancel)));
        return command;
    }

    private static int Run(FuzzOptions options, string[] only, bool byDamage, string? json, CancellationToken cancel)
    {
        if (options.Files is < 1 or > 1_000_000 || options.MostMinutes is not > 0)
        {
            Console.Error.WriteLine("Give --files a number from 1 to 1000000 and --minutes one above 0; nothing was tried.");
            return 1;
        }

        string folder = Directory.CreateTempSubdirectory("leafscan-fuzz-").FullName;
        try
        {
            using FuzzTargets targets = new(folder);
            if (only.FirstOrDefault(name => targets.All.All(target => target.Name != name)) is { } unknown)
            {
                Console.Error.WriteLine($"There is no way in called \"{unknown}\"; nothing was tried. There are {string.Join(", ", targets.All.Select(target => target.Name))}.");
                return 1;
            }

            FuzzRun run = new(options);
            foreach (IFuzzTarget target in targets.All.Where(target => only.Length == 0 || only.Contains(target.Name)))
            {
                run.Try(target, target == targets.Photos ? options.Files : options.FilesElsewhere, Console.Error.WriteLine, cancel);
            }

            Console.Out.WriteLine(FuzzTable.Markdown(run, byDamage));
            Console.Out.WriteLine(targets.Photos.HasHeic ? "HEIC was among the photos." : "HEIC was not tried: the program heif-enc is missing.");
            if (json is not null)
            {
                File.WriteAllText(json, JsonSerializer.Serialize(FuzzTable.Document(options, run), Layout));
            }

            if (run.OutOfTime)
            {
                Console.Error.WriteLine("Not all files were tried; the table says how many were.");
            }

            return run.Findings.Count == 0 && !run.OutOfTime ? 0 : 1;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
