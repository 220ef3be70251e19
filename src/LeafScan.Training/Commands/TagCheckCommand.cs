using System.CommandLine;
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
        command.SetAction(parsed => Console.Out.WriteLine(new TagCheckRun(parsed.GetValue(seed), parsed.GetValue(pictures), Console.Error.WriteLine).Table()));
        return command;
    }
}
