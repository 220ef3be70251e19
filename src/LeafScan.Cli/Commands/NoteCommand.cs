using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Frame.Sheets;
using LeafScan.Notes.Client;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>note: one page for the client on one plant or one place.</summary>
internal static class NoteCommand
{
    private static readonly string[] Endings = [".pdf", ".html", ".md", ".png", ".json"];

    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string?> code = new("PLANT") { Description = "Code of the plant; without it the note is on the place of --place.", Arity = ArgumentArity.ZeroOrOne };
        Option<string?> place = PlantChoice.NewPlaceOption();
        Option<DateOnly?> since = OptionChecks.NewDay("--since", "Lays the last walk beside the one on or before this day, and tells what was done since. Default: the walk before.");
        Option<DateOnly?> date = OptionChecks.NewDay("--date", "Day of the note. Default: today.");
        Option<string> file = PrintCommand.NewOutOption("File to write: a PDF, a page for the browser, Markdown, a picture or a document for programs.", Endings);
        Option<string?> country = NewCountryOption();
        Option<string?> units = new("--units") { Description = "metric or us. Default: as the country.", HelpName = "UNITS" };
        units.OnlyOneOfOrNone(["metric", "us"]);
        Option<string?> paper = new("--paper") { Description = "a4 or letter. Default: as the country.", HelpName = "SIZE" };
        paper.OnlyOneOfOrNone([.. PaperSize.All.Select(size => size.Name)]);
        Option<string> kind = KindOption.OnRecord();
        Option<bool> plain = new("--no-picture") { Description = "Without a photo." };
        ExampleCommand command = new(
            "note", "Writes one page for the client: what was seen, done and comes next.",
            "leafscan note EU-1 --out note.pdf", "leafscan note EU-1 --since 2026-06-01 --country US --out note.html", "leafscan note --place \"Hill nursery\" --out nursery.pdf",
            "leafscan card EU-1 --out eu-1.jpg", "leafscan print tags --plants EU-1 --out tag.pdf", "leafscan print scale-sheet --paper a4 --out sheet.pdf")
        {
            code, place, since, date, kind, file, country, units, paper, plain, NoteTextCommand.Build(world), NoteSenderCommand.Build(world),
        };
        command.SetAction((parsed, cancel) =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            string target = parsed.GetValue(file)!;
            (Plant? plant, Place where) = Subject(store, parsed.GetValue(code), parsed.GetValue(place));
            NoteLook look = NoteSetup.Look(store, where.Id, new NoteAsked(parsed.GetValue(country), parsed.GetValue(units), parsed.GetValue(paper)));
            DateOnly today = parsed.GetValue(date) ?? DateOnly.FromDateTime(world.Time.GetLocalNow().DateTime);
            if (parsed.GetValue(since) > today)
            {
                throw new CommandException(ExitCode.WrongUse, $"--since {Words.Day(parsed.GetValue(since)!.Value)} lies after the day of the note; nothing was written.");
            }

            NoteRequest request = NoteRequest.Of(
                look, today, parsed.GetValue(since), parsed.GetValue(plain) ? null : photo => NoteSetup.Draw(store, photo, new PictureChoice(), parsed, world, cancel).Picture)
                with
            { Kind = parsed.GetValue(kind) };
            NoteComposer composer = new(store, request);
            NoteContent content = plant is null ? composer.OfPlace(where) : composer.OfPlant(plant);
            if (parsed.GetValue(kind) is { } asked && content is { Now: null } && content.Plants.All(row => row.Now is null))
            {
                world.Err.WriteLine(new KindsShown([]).Nothing(asked));
            }

            NoteFiles.Write(world, target, content, look.Paper, look.Language);
            return Task.FromResult(ExitCode.Done);
        });
        return command;
    }

    /// <summary>Option --country.</summary>
    public static Option<string?> NewCountryOption()
    {
        Option<string?> country = new("--country") { Description = "Country in whose form days are written, two letters such as US, GB or DE.", HelpName = "CC" };
        country.Validators.Add(result =>
        {
            string? value = result.Tokens.Count > 0 ? result.Tokens[0].Value : null;
            if (value is not null && !(value.Length == 2 && value.All(char.IsAsciiLetter)))
            {
                result.AddError($"--country takes two letters such as US or DE, not \"{value}\".");
            }
        });
        return country;
    }

    /// <summary>The plant, or none, and the place a note is on.</summary>
    public static (Plant? Plant, Place Place) Subject(RecordStore store, string? code, string? placeName)
    {
        if (code is not null)
        {
            Plant plant = PlantChoice.One(store, code, placeName);
            return (plant, store.Places().Single(place => place.Id == plant.PlaceId));
        }

        IReadOnlyList<Place> places = store.Places();
        Place? one = placeName is null ? (places.Count == 1 ? places[0] : null) : places.FirstOrDefault(place => string.Equals(place.Name, placeName, StringComparison.OrdinalIgnoreCase));
        return (null, one ?? throw new CommandException(
            ExitCode.WrongUse, $"Say which plant, or which place with --place. {(places.Count == 0 ? "There is none on record yet." : $"Places on record: {string.Join(", ", places.Select(place => $"\"{place.Name}\""))}.")}"));
    }
}
