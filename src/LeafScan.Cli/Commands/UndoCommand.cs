using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>undo: takes back the last change by hand.</summary>
internal static class UndoCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "undo", "Takes back the last change by hand (plants set, plants leaf, photos assign, photos remove, care add, tap add, weather add --replace, thresholds, note text, bin); again, the one before.", "leafscan undo")
        {
            json,
        };
        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            UndoneChange? undone = store.UndoLastEdit();
            return Answer.Give(
                world, parsed, json,
                new { schema = "leafscan.undo/1", tool = ToolVersion.Current, undone = undone?.Words ?? [], reason = undone?.Reason },
                undone is null ? ["There is no change by hand to take back."] : ["Taken back:", .. undone.Words.Select(word => "  " + word + ".")]);
        });
        return command;
    }
}
