using System.CommandLine;
using LeafScan.Training.Look;

namespace LeafScan.Training.Commands;

/// <summary>compare-look: whether rendered leaves look like real ones, in numbers.</summary>
internal static class LookCommand
{
    public static Command Build()
    {
        Option<string[]> rendered = new("--rendered") { Description = "Folders of rendered photos.", Required = true, AllowMultipleArgumentsPerToken = true };
        Option<string[]> real = new("--real") { Description = "Folders of real photos; FOLDER:WORD takes only names that begin with the word.", Required = true, AllowMultipleArgumentsPerToken = true };
        Command command = new("compare-look", "Compares colour, contrast, noise and sharpness of rendered and real leaves.") { rendered, real };
        command.SetAction((parsed, cancel) =>
        {
            string[] ours = parsed.GetValue(rendered)!;
            string[] theirs = parsed.GetValue(real)!;
            if (ours.Concat(theirs).FirstOrDefault(f => !Directory.Exists(f.Split(':', 2)[0])) is { } missing)
            {
                Console.Error.WriteLine($"There is no folder \"{missing}\"; nothing was compared. Check the name and try again.");
                return Task.FromResult(1);
            }

            IReadOnlyList<LookComparison> all = LookComparison.Of(
                [.. ours.SelectMany(f => LookFolder.Of(f, cancel))], [.. theirs.SelectMany(f => LookFolder.Of(f, cancel))]);
            Console.Out.WriteLine(LookComparison.Table(all));
            return Task.FromResult(0);
        });
        return command;
    }
}
