using System.CommandLine;
using LeafScan.Training.Bench;

namespace LeafScan.Training.Commands;

/// <summary>What the commands that measure photos of known truth share: the folders and which photos of them.</summary>
internal sealed class BenchFolders
{
    private readonly Argument<string[]> _folders = new("FOLDER") { Description = "Folders with photos and their truth.", Arity = ArgumentArity.OneOrMore };

    private readonly Option<PhotoNumbers> _numbers = new("--numbers")
    {
        Description = "all (default), even or odd: which photos, by the last number in their names.",
        DefaultValueFactory = _ => PhotoNumbers.All,
    };

    public void AddTo(Command command)
    {
        command.Arguments.Add(_folders);
        command.Options.Add(_numbers);
    }

    /// <summary>The photos; null with an exit code when there are none, after having said so.</summary>
    public IReadOnlyList<TruthCase>? Read(ParseResult parsed, out int exitCode)
    {
        string[] folders = parsed.GetValue(_folders)!;
        if (folders.FirstOrDefault(f => !Directory.Exists(f)) is { } missing)
        {
            Console.Error.WriteLine($"There is no folder \"{missing}\"; nothing was measured. Check the name and try again.");
            exitCode = 1;
            return null;
        }

        IReadOnlyList<TruthCase> cases = BenchRun.Cases(folders, parsed.GetValue(_numbers));
        if (cases.Count == 0)
        {
            Console.Error.WriteLine("No photo with truth lies in these folders; see docs/accuracy.md for the names that are looked for.");
            exitCode = 3;
            return null;
        }

        exitCode = 0;
        return cases;
    }

    /// <summary>Finds parts by name; null after having said which name is unknown.</summary>
    public static IReadOnlyList<MeasuringPart>? Parts(string[] names)
    {
        if (names.FirstOrDefault(n => MeasuringPart.Find(n) is null) is { } unknown)
        {
            Console.Error.WriteLine($"There is no part \"{unknown}\"; nothing was measured. Parts are {string.Join(", ", MeasuringPart.All.Select(p => p.Name))}.");
            return null;
        }

        return [.. names.Select(n => MeasuringPart.Find(n)!)];
    }
}
