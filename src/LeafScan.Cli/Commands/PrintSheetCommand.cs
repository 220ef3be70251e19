using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Frame.Sheets;
using LeafScan.Notes.Paper;
using LeafScan.Notes.Sheets;

namespace LeafScan.Cli.Commands;

/// <summary>print scale-sheet: the sheet that gives photos a scale.</summary>
internal static class PrintSheetCommand
{
    private static readonly string[] Sides = [.. Enum.GetNames<SheetSide>().Select(name => name.ToLowerInvariant())];

    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Option<string> paper = PrintCommand.NewPaperOption();
        Option<string?> side = new("--side") { Description = "leaf or tap. Default: both, on two pages of a PDF.", HelpName = "SIDE" };
        side.Validators.Add(result =>
        {
            if (result.Tokens.Count > 0 && !Sides.Contains(result.Tokens[0].Value, StringComparer.Ordinal))
            {
                result.AddError($"--side takes leaf or tap, not \"{result.Tokens[0].Value}\".");
            }
        });
        Option<string> file = PrintCommand.NewOutOption("PDF to write, or an SVG of one side.", ".pdf", PrintCommand.Svg);
        ExampleCommand command = new(
            "scale-sheet",
            "Writes the sheet of paper that gives photos a scale and a white: one side for leaves, one for taps.",
            "leafscan print scale-sheet --paper a4 --out sheet.pdf",
            "leafscan print scale-sheet --paper letter --side tap --out tap.svg")
        {
            paper, side, file,
        };
        command.SetAction(parsed =>
        {
            string target = parsed.GetValue(file)!;
            string? only = parsed.GetValue(side);
            bool svg = PrintCommand.IsSvg(target);
            if (svg && only is null)
            {
                throw new CommandException(ExitCode.WrongUse, "An SVG holds one side only; nothing was written. Say which with --side leaf or --side tap, or write a PDF.");
            }

            PaperSize size = PrintCommand.Paper(parsed.GetValue(paper)!);
            List<PaperPage> pages =
            [
                .. Enum.GetValues<SheetSide>()
                    .Where(s => only is null || string.Equals(s.ToString(), only, StringComparison.OrdinalIgnoreCase))
                    .Select(s => ScaleSheetPage.Of(ScaleSheet.Of(size, s))),
            ];
            if (svg)
            {
                SafeFile.Write(target, stream => SvgPaper.Write(stream, pages[0]));
            }
            else
            {
                PrintCommand.NeedFonts();
                PrintCommand.WritePdf(world, target, pages, "LeafScan scale sheet");
            }

            world.Out.WriteLine(Words.OneLine($"Written: {target} ({(pages.Count == 1 ? "1 page" : "2 pages")}, {size.Name})."));
            world.Out.WriteLine("Print at 100 %, measure the bar, and tell LeafScan if it is not 100 mm: leafscan print measured MM");
            return ExitCode.Done;
        });
        return command;
    }
}
