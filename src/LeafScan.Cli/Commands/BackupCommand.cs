using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>backup: the record, checked, in one file.</summary>
internal static class BackupCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string?> file = new("FILE")
        {
            Description = "File to write. Default: a dated name in the folder backups of the data folder.",
            Arity = ArgumentArity.ZeroOrOne,
        };
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "backup", "Copies the record into one file and checks the copy. The photos are not in it.", "leafscan backup", "leafscan backup /media/stick/leafscan-july.db")
        {
            file, json,
        };
        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            string path = store.BackUp(parsed.GetValue(file));
            string? target = JsonOut.Target(parsed, json);
            if (target is not null)
            {
                JsonOut.Write(world, target, new { schema = "leafscan.backup/1", tool = ToolVersion.Current, file = path, bytes = new FileInfo(path).Length });
            }

            if (target != JsonOut.StandardOutput)
            {
                world.Out.WriteLine(Words.OneLine($"The record is copied and checked: {path}"));
                world.Out.WriteLine("Photos are not in it: keep the folders of your walks as well.");
            }

            return ExitCode.Done;
        });
        return command;
    }
}
