using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>restore: back to a backup.</summary>
internal static class RestoreCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string> file = new("FILE") { Description = "A backup that backup or a change of layout made." };
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "restore", "Checks a backup and puts it in the place of the record; the record as it is now is backed up first.", "leafscan restore /media/stick/leafscan-july.db")
        {
            file, json,
        };
        command.SetAction(parsed =>
        {
            string from = Path.GetFullPath(parsed.GetValue(file)!);
            RecordRestored restored = RecordStore.Restore(DataPlace.Of(parsed, world).FolderPath, from, world.Time);
            return Answer.Give(
                world, parsed, json,
                new { schema = "leafscan.restored/1", tool = ToolVersion.Current, from, photos = restored.Facts.Photos, plants = restored.Facts.Plants, before = restored.BackupOfBefore },
                $"The record is now that of {from}: {Words.Count((int)restored.Facts.Plants, "plant")}, {Words.Count((int)restored.Facts.Photos, "photo")}.",
                restored.BackupOfBefore is { } before ? $"What was there before is kept in {before}." : "There was no record before.");
        });
        return command;
    }
}
