using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>export: everything on record in one file that other programs can read.</summary>
internal static class ExportCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Option<string> to = new("--out") { Description = "ZIP file to write; an existing one is left alone.", HelpName = "FILE.zip", Required = true };
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "export", "Writes everything on record as JSON lines in one ZIP file, the bin, the edits and the settings included. The photos are not in it. Parts of it for other software: readings, series, block, photos.",
            "leafscan export --out record.zip", "leafscan export series --out series.csv")
        {
            to, json, ExportTableCommand.Readings(world), ExportTableCommand.Series(world), ExportTableCommand.Block(world), ExportPhotosCommand.Build(world),
        };
        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            string file = Path.GetFullPath(parsed.GetValue(to)!);
            RecordExchanged written = store.ExportTo(file, ToolVersion.Current);
            return Answer.Give(
                world, parsed, json,
                new { schema = "leafscan.exported/1", tool = ToolVersion.Current, file, bytes = new FileInfo(file).Length, rows = written.Rows, contentSha256 = written.Sha256 },
                $"The whole record is in {file}: {Words.Count((int)written.Rows, "row")}. To read it into another data folder: leafscan import {Path.GetFileName(file)} --data-dir DIR");
        });
        return command;
    }
}
