using System.CommandLine;
using System.Globalization;
using LeafScan.Cli.Screen;
using LeafScan.Frame.Sheets;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>print measured: what the printed bar really measures.</summary>
internal static class PrintMeasuredCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<double?> length = new("MM")
        {
            Description = "Length of the printed bar by a ruler, in mm; 100 takes a correction back. Left out: shows what is kept.",
            Arity = ArgumentArity.ZeroOrOne,
        };
        ExampleCommand command = new(
            "measured", "Keeps how long your printer makes the 100 mm bar; all scales are corrected by it.", "leafscan print measured 98.5", "leafscan print measured")
        {
            length,
        };
        command.SetAction(parsed =>
        {
            string folder = DataPlace.Of(parsed, world).FolderPath;
            Settings settings = Settings.Load(folder);
            if (parsed.GetValue(length) is { } mm)
            {
                if (!(mm >= ScaleSheet.RulerMm * PrintedScale.Least && mm <= ScaleSheet.RulerMm * PrintedScale.Most))
                {
                    throw new CommandException(ExitCode.WrongUse, string.Create(
                        CultureInfo.InvariantCulture,
                        $"A bar of {mm} mm is no printer's doing: it must lie between 90 and 110 mm. Nothing was changed. Measure the bar from end to end, in millimetres."));
                }

                settings = settings with { PrintedBarMm = mm == ScaleSheet.RulerMm ? null : mm };
                settings.Save(folder);
            }

            world.Out.WriteLine(settings.PrintedBarMm is { } kept
                ? string.Create(CultureInfo.InvariantCulture, $"The printed bar measures {kept} mm; scales are corrected by it.")
                : "The printed bar counts as 100 mm.");
            return ExitCode.Done;
        });
        return command;
    }
}
