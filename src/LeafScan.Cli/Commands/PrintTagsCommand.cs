using System.CommandLine;
using LeafScan.Cli.Screen;
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
        };
        Option<bool> all = new("--all") { Description = "Every plant on record, with its name or species." };
        Option<string?> place = new("--place") { Description = "With --all: only plants of this place.", HelpName = "NAME" };
        Option<string> paper = PrintCommand.NewPaperOption();
        Option<string> file = PrintCommand.NewOutOption("PDF to write.", ".pdf");
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

            List<PlantTag> tags = named.Length > 0 ? [.. named.Select(Named)] : OnRecord(parsed, world, parsed.GetValue(place));
            if (tags.Count is 0 or > MostTags)
            {
                throw new CommandException(ExitCode.WrongUse, tags.Count == 0
                    ? "There is no plant on record there, so there is no tag to print. Name plants with --plants."
                    : $"{Words.Number(tags.Count)} tags are too many for one file; nothing was written. Print one place at a time with --place.");
            }

            PrintCommand.NeedFonts();
            if (tags.Select(TagPages.WhyNot).FirstOrDefault(sentence => sentence is not null) is { } whyNot)
            {
                throw new CommandException(ExitCode.WrongUse, whyNot);
            }

            TagLayout layout = new(PrintCommand.Paper(parsed.GetValue(paper)!));
            string target = parsed.GetValue(file)!;
            var pages = TagPages.Of(tags, layout);
            PrintCommand.WritePdf(world, target, pages, "LeafScan plant tags");
            foreach (PlantTag tag in tags.Where(tag => tag.Name is { Length: > 0 } name && !TagPages.CanSet(name)))
            {
                world.Err.WriteLine(Words.OneLine($"The name of {tag.Code} has letters that cannot be set here; its tag shows the code alone."));
            }

            world.Out.WriteLine(Words.OneLine($"Written: {target} (tags: {Words.Number(tags.Count)}, pages: {Words.Number(pages.Count)})."));
            return ExitCode.Done;
        });
        return command;
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
