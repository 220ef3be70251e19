using System.CommandLine;
using LeafScan.Photos;
using LeafScan.Training.FrameCheck;

namespace LeafScan.Training.Commands;

/// <summary>tag-check: how many pixels to a square a printed tag needs to be read.</summary>
internal static class TagCheckCommand
{
    public static Command Build()
    {
        Option<int> seed = new("--seed") { Description = "First seed.", DefaultValueFactory = _ => 90000 };
        Option<int> pictures = new("--pictures") { Description = "Pictures of each code at each size, 1 to 1000.", DefaultValueFactory = _ => 25 };
        pictures.Validators.Add(result =>
        {
            if (result.Tokens.Count > 0 && (!int.TryParse(result.Tokens[0].Value, out int n) || n is < 1 or > 1000))
            {
                result.AddError("--pictures takes a number from 1 to 1000.");
            }
        });
        Command command = new("tag-check", "Counts how many rendered plant tags are read, by the size of their squares in pixels, and prints a table.") { seed, pictures };
        Option<DirectoryInfo[]> leaves = new("--noticed") { Description = "Instead: how many unreadable tags are noticed, and how many photos of leaves in these folders are taken for one.", Arity = ArgumentArity.ZeroOrMore, AllowMultipleArgumentsPerToken = true };
        command.Options.Add(leaves);
        command.SetAction(parsed => Console.Out.WriteLine(parsed.GetResult(leaves) is null
            ? new TagCheckRun(parsed.GetValue(seed), parsed.GetValue(pictures), Console.Error.WriteLine).Table()
            : new TagNoticeRun(parsed.GetValue(seed), parsed.GetValue(pictures), Console.Error.WriteLine).Table(
                [.. parsed.GetValue(leaves)!.SelectMany(folder => PhotoFolder.List(folder.FullName, DateTimeOffset.UtcNow).Files).Where(file => !file.Contains(".cutout.", StringComparison.Ordinal))])));
        return command;
    }
}
