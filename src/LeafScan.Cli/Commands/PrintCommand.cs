using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Frame.Sheets;
using LeafScan.Notes.Paper;

namespace LeafScan.Cli.Commands;

/// <summary>print: the scale sheet and plant tags, as files for the printer.</summary>
internal static class PrintCommand
{
    /// <summary>Ending of a file for screens and drawing programs.</summary>
    public const string Svg = ".svg";

    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world) => new("print", "Writes sheets and tags for the printer.")
    {
        PrintSheetCommand.Build(world),
        PrintTagsCommand.Build(world),
        PrintMeasuredCommand.Build(world),
    };

    /// <summary>Option --paper.</summary>
    public static Option<string> NewPaperOption()
    {
        Option<string> paper = new("--paper") { Description = "a4 or letter.", HelpName = "SIZE", DefaultValueFactory = _ => PaperSize.A4.Name };
        paper.OnlyOneOf([.. PaperSize.All.Select(size => size.Name)]);
        return paper;
    }

    /// <summary>Option --out, with its ending checked.</summary>
    public static Option<string> NewOutOption(string description, params string[] endings)
    {
        Option<string> file = new("--out") { Description = description, HelpName = "FILE", Required = true };
        file.Validators.Add(result =>
        {
            string? value = result.Tokens.Count > 0 ? result.Tokens[0].Value : null;
            if (value is not null && !endings.Any(ending => value.EndsWith(ending, StringComparison.OrdinalIgnoreCase)))
            {
                result.AddError($"--out takes a file named {string.Join(" or ", endings.Select(ending => "*" + ending))}, not \"{value}\".");
            }
        });
        return file;
    }

    /// <summary>Whether a file is to be an SVG.</summary>
    public static bool IsSvg(string file) => file.EndsWith(Svg, StringComparison.OrdinalIgnoreCase);

    /// <summary>The paper of that name.</summary>
    public static PaperSize Paper(string name) => PaperSize.All.Single(size => size.Name == name);

    /// <summary>Stops with a sentence when the fonts are missing.</summary>
    /// <exception cref="CommandException">They are.</exception>
    public static void NeedFonts()
    {
        if (PaperFonts.Missing is { } sentence)
        {
            throw new CommandException(ExitCode.StoreTrouble, sentence);
        }
    }

    /// <summary>Writes pages as PDF, whole or not at all.</summary>
    public static void WritePdf(Surroundings world, string file, IReadOnlyList<PaperPage> pages, string title)
    {
        using MemoryStream whole = new();
        PdfPaper.Write(whole, pages, title, world.Time.GetUtcNow());
        SafeFile.Write(file, stream => whole.WriteTo(stream));
    }
}
