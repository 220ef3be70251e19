using System.CommandLine;
using LeafScan.Training.FrameCheck;

namespace LeafScan.Training.Commands;

/// <summary>frame-check: how well scale, area and colour are read from rendered scale sheets.</summary>
internal static class FrameCheckCommand
{
    public static Command Build()
    {
        Option<int> seed = new("--seed") { Description = "First seed.", DefaultValueFactory = _ => 70000 };
        Option<int> sheets = new("--sheets") { Description = "Sheets for each line, 4 to 1000.", DefaultValueFactory = _ => 20 };
        sheets.Validators.Add(result =>
        {
            if (result.Tokens.Count > 0 && (!int.TryParse(result.Tokens[0].Value, out int n) || n is < 4 or > 1000))
            {
                result.AddError("--sheets takes a number from 4 to 1000.");
            }
        });
        Command command = new("frame-check", "Measures scale, leaf area and colour on rendered scale sheets and prints tables.") { seed, sheets };
        Option<string[]> parts = new("--part") { Description = "Only these tables.", DefaultValueFactory = _ => [.. FrameCheckRun.Parts], AllowMultipleArgumentsPerToken = true };
        parts.AcceptOnlyFromAmong([.. FrameCheckRun.Parts]);
        command.Options.Add(parts);
        command.SetAction(parsed =>
        {
            foreach (string table in new FrameCheckRun(parsed.GetValue(seed), parsed.GetValue(sheets), Console.Error.WriteLine).Tables(parsed.GetValue(parts)!))
            {
                Console.Out.WriteLine(table + "\n");
            }
        });
        return command;
    }
}
