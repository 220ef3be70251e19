using System.CommandLine;
using LeafScan.Frame;
using LeafScan.Leaves;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>How to measure, with what the person's printer makes of 100 mm.</summary>
internal static class PrinterScale
{
    /// <summary>Options of a command that measures.</summary>
    /// <param name="parsed">Its words.</param>
    /// <param name="world">Its surroundings.</param>
    /// <param name="kind">Kind of photo that was said, or null.</param>
    public static MeasureOptions Options(ParseResult parsed, Surroundings world, string? kind)
    {
        DataFolder? folder = null;
        try
        {
            folder = DataPlace.Of(parsed, world);
        }
        catch (RecordException) when (parsed.GetValue(DataPlace.Option) is null)
        {
            // An account without a home folder has no settings either; measuring needs none.
        }

        Settings settings = folder is null ? new Settings() : Settings.Load(folder.FolderPath);
        return new MeasureOptions { Kind = kind, Frame = new FrameOptions { Printed = settings.PrintedScale } };
    }
}
