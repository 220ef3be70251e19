using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>import: a whole record from a file into an empty data folder.</summary>
internal static class ImportCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string> file = new("FILE") { Description = "ZIP file that export wrote." };
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "import", "Reads a whole record into a data folder that has none: all of it or nothing.", "leafscan import record.zip --data-dir new-record")
        {
            file, json,
        };
        command.SetAction(parsed =>
        {
            string from = Path.GetFullPath(parsed.GetValue(file)!);
            if (!File.Exists(from))
            {
                throw new CommandException(ExitCode.WrongUse, $"There is no file {from}. Nothing was changed.");
            }

            using RecordStore store = DataPlace.OpenOrBegin(parsed, world);
            RecordExchanged read = store.ImportFrom(from);
            return Answer.Give(
                world, parsed, json,
                new { schema = "leafscan.imported/1", tool = ToolVersion.Current, file = from, rows = read.Rows, contentSha256 = read.Sha256 },
                $"The whole record of {from} is now in {store.Folder}: {Words.Count((int)read.Rows, "row")}.");
        });
        return command;
    }
}
