using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Notes.Paper;
using LeafScan.Notes.Tags;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>print tags: QR tags for plants.</summary>
internal static class PrintTagsCommand
{
    private const int MostTags = 5000;

    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Option<string[]> plants = new("--plants")
        {
            Description = "Codes of plants, each alone or as CODE=NAME; they need not be on record yet.",
            HelpName = "CODE[=NAME]",
            AllowMultipleArgumentsPerToken = true,

            // An empty list is told as such; otherwise the word --out after it would be taken for a plant.
            Arity = ArgumentArity.ZeroOrMore,
        };
        Option<bool> all = new("--all") { Description = "Every plant on record, with its name or species." };
        Option<string?> place = new("--place") { Description = "With --all: only plants of this place.", HelpName = "NAME" };
        Option<string> paper = PrintCommand.NewPaperOption();
        Option<string> file = PrintCommand.NewOutOption("PDF to write, or an SVG of one page.", ".pdf", PrintCommand.Svg);
        ExampleCommand command = new(
            "tags",
            "Writes small tags with each plant's code as QR and in plain text, several to a page.",
            "leafscan print tags --plants B03 B07 \"K12=Burning bush, south wall\" --out tags.pdf",
            "leafscan print tags --all --place \"Hill nursery\" --paper letter --out tags.pdf")
        {
            plants, all, place, paper, file,
        };
        command.SetAction(parsed =>
        {
            string[] named = parsed.GetValue(plants) ?? [];
            if (named.Length > 0 == parsed.GetValue(all))
            {
                throw new CommandException(ExitCode.WrongUse, "Name plants with --plants, or take every plant on record with --all; nothing was written.");
            }

            if (parsed.GetValue(place) is not null && named.Length > 0)
            {
                throw new CommandException(ExitCode.WrongUse, "--place goes with --all, not with --plants; nothing was written.");
            }

            List<PlantTag> tags = named.Length > 0 ? [.. named.Select(Named)] : OnRecord(parsed, world, parsed.GetValue(place));
            if (tags.Count is 0 or > MostTags)
            {
                throw new CommandException(ExitCode.WrongUse, tags.Count == 0
                    ? "There is no plant on record there, so there is no tag to print. Name plants with --plants."
                    : $"{Words.Number(tags.Count)} tags are too many for one file; nothing was written. Print one place at a time with --place.");
            }

            PrintCommand.NeedFonts();
            TagLayout layout = new(PrintCommand.Paper(parsed.GetValue(paper)!));
            int asked = tags.Count;
            tags = Printable(tags, layout, world, onRecord: named.Length == 0);
            string target = parsed.GetValue(file)!;
            IReadOnlyList<PaperPage> pages = TagPages.Of(tags, layout);
            Write(world, target, pages);
            TellLettersLeftOut(tags, world);
            world.Out.WriteLine(Words.OneLine($"Written: {target} (tags: {Words.Number(tags.Count)}, pages: {Words.Number(pages.Count)})."));
            return tags.Count == asked ? ExitCode.Done : ExitCode.SomeRefused;
        });
        return command;
    }

    // A wrong word of the person stops at once; one plant on record never stops the tags of the others.
    private static List<PlantTag> Printable(List<PlantTag> tags, TagLayout layout, Surroundings world, bool onRecord)
    {
        List<PlantTag> good = [];
        foreach (PlantTag tag in tags)
        {
            if (TagPages.WhyNot(tag, layout) is not { } sentence)
            {
                good.Add(tag);
            }
            else if (onRecord)
            {
                world.Err.WriteLine(Words.OneLine(sentence));
            }
            else
            {
                throw new CommandException(ExitCode.WrongUse, sentence);
            }
        }

        return good.Count > 0 ? good : throw new CommandException(ExitCode.WrongUse, "None of the plants has a code that a tag can carry; nothing was written. Give them shorter codes.");
    }

    private static void Write(Surroundings world, string target, IReadOnlyList<PaperPage> pages)
    {
        if (!PrintCommand.IsSvg(target))
        {
            PrintCommand.WritePdf(world, target, pages, "LeafScan plant tags");
        }
        else if (pages.Count == 1)
        {
            SafeFile.Write(target, stream => SvgPaper.Write(stream, pages[0]));
        }
        else
        {
            throw new CommandException(ExitCode.WrongUse, $"An SVG holds one page only and these tags need {Words.Number(pages.Count)}; nothing was written. Write a PDF, or name fewer plants.");
        }
    }

    private static void TellLettersLeftOut(IEnumerable<PlantTag> tags, Surroundings world)
    {
        foreach (PlantTag tag in tags)
        {
            if (!TagPages.CanSet(tag.Code))
            {
                world.Err.WriteLine(Words.OneLine($"The code {tag.Code} has letters that cannot be set here; its tag has a line to write it on by hand. The square says it in full."));
            }

            if (tag.Name is { Length: > 0 } name && !TagPages.CanSet(name))
            {
                world.Err.WriteLine(Words.OneLine($"The name of {tag.Code} has letters that cannot be set here; its tag shows the code alone."));
            }
        }
    }

    private static PlantTag Named(string word)
    {
        int at = word.IndexOf('=', StringComparison.Ordinal);
        return at < 0 ? new PlantTag(word.Trim()) : new PlantTag(word[..at].Trim(), word[(at + 1)..].Trim());
    }

    private static List<PlantTag> OnRecord(ParseResult parsed, Surroundings world, string? place)
    {
        using RecordStore store = DataPlace.OpenExisting(parsed, world);
        return [.. store.PlantOverviews(place).Select(plant => new PlantTag(plant.Plant.Code, plant.Plant.Name ?? plant.Plant.Species))];
    }
}
