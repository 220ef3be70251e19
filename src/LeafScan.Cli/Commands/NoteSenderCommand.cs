using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Frame.Sheets;
using LeafScan.Leaves;
using LeafScan.Notes.Client;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>note sender: who writes the notes, and in which form.</summary>
internal static class NoteSenderCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Option<string?> by = new("--by") { Description = "Who writes the notes. \"\" clears, here and below.", HelpName = "NAME" };
        Option<string?> contact = new("--contact") { Description = "How to reach them.", HelpName = "TEXT" };
        Option<string?> country = NoteCommand.NewCountryOption();
        Option<string?> units = new("--units") { Description = "metric or us, whatever the country.", HelpName = "UNITS" };
        units.OnlyOneOfOrNone(["metric", "us"]);
        Option<string?> paper = new("--paper") { Description = "a4 or letter, whatever the country.", HelpName = "SIZE" };
        paper.OnlyOneOfOrNone([.. PaperSize.All.Select(size => size.Name)]);
        Option<string?> language = new("--language") { Description = "Language that your own headings are in, such as de or fr-CA, for screen readers. \"\" for English.", HelpName = "TAG" };
        language.Validators.Add(result =>
        {
            if (result.Tokens.Count > 0 && result.Tokens[0].Value is { Length: > 0 } tag && !(tag.Length <= 35 && tag.Split('-').All(part => part.Length is >= 1 and <= 8 && part.All(char.IsAsciiLetterOrDigit)) && char.IsAsciiLetter(tag[0])))
            {
                result.AddError("--language takes a language tag such as de or fr-CA.");
            }
        });
        Option<string[]> heading = new("--heading") { Description = $"A heading in your own words; KEY= takes it back. Keys: {string.Join(", ", NoteWords.Keys)}.", HelpName = "KEY=WORDS", AllowMultipleArgumentsPerToken = true };
        heading.Validators.Add(result =>
        {
            if (result.Tokens.FirstOrDefault(token => !NoteWords.Keys.Contains(KeyOf(token.Value))) is { } wrong)
            {
                result.AddError($"--heading takes KEY=WORDS with one of the keys {string.Join(", ", NoteWords.Keys)}, not \"{wrong.Value}\".");
            }
        });
        Option<string?> client = new("--client") { Description = "The country is that of this client and not your own.", HelpName = "NAME" };
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "sender", "Says who writes the notes and in which country's form; without options, shows it.",
            "leafscan note sender --by \"Jo Brandt\" --contact \"jo@brandt.example\" --country DE", "leafscan note sender --client \"Harbour Hotel\" --country US",
            "leafscan note sender --language de --heading \"title=Pflanzenbericht\" \"next=Wie es weitergeht\"")
        {
            by, contact, country, units, paper, language, heading, client, json,
        };
        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            Settings settings = Settings.Load(store.Folder);
            string? land = parsed.GetValue(country)?.ToUpperInvariant();
            string? whose = parsed.GetValue(client);
            if (whose is not null)
            {
                Client known = store.Clients().FirstOrDefault(one => string.Equals(one.Name, whose.Trim(), StringComparison.OrdinalIgnoreCase))
                    ?? throw new CommandException(ExitCode.WrongUse, $"No client \"{whose}\" is on record. Nothing was changed. A client is told with: leafscan plants set PLANT --client NAME");
                store.SetCountry(known.Id, land, "note sender");
            }

            NoteSettings old = settings.Note;
            NoteSettings now = old with
            {
                By = Said(parsed.GetValue(by), old.By),
                Contact = Said(parsed.GetValue(contact), old.Contact),
                Country = whose is null ? land ?? old.Country : old.Country,
                Units = parsed.GetValue(units) ?? old.Units,
                Paper = parsed.GetValue(paper) ?? old.Paper,
                Language = Said(parsed.GetValue(language), old.Language),
                Words = Headings(old.Words, parsed.GetValue(heading) ?? []),
            };
            if (now != old)
            {
                (settings with { Note = now }).Save(store.Folder);
            }

            NoteLook used = NoteLook.Of(settings with { Note = now }, null, new NoteAsked());
            string measures = used.Forms.UsUnits ? "us" : "metric";
            return Answer.Give(
                world, parsed, json,
                new { schema = "leafscan.note-sender/1", tool = ToolVersion.Current, by = used.By, contact = used.Contact, country = used.Country, units = measures, paper = used.Paper.Name, language = used.Language, headings = now.Words ?? new Dictionary<string, string>(), client = whose, clientCountry = whose is null ? null : land },
                [
                    $"Notes are written by {used.By ?? "(nobody named)"}{(used.Contact is { } reach ? $", {reach}" : string.Empty)}.",
                    $"A day looks like {used.Forms.Day(new DateOnly(2026, 7, 2))}; units are {measures}, paper is {used.Paper.Name}.",
                    .. now.Words is { Count: > 0 } own ? [$"Your own headings: {string.Join(", ", own.Select(word => $"{word.Key}: {word.Value}"))}."] : Array.Empty<string>(),
                    .. whose is null ? [] : new[] { $"For {whose}: as in {land ?? "your own country"}." },
                ]);
        });
        return command;
    }

    private static string KeyOf(string word) => word.Split('=')[0].Trim();

    private static IReadOnlyDictionary<string, string>? Headings(IReadOnlyDictionary<string, string>? old, string[] said)
    {
        if (said.Length == 0)
        {
            return old;
        }

        SortedDictionary<string, string> now = new(old?.ToDictionary() ?? [], StringComparer.Ordinal);
        foreach (string word in said)
        {
            string words = word.Contains('=', StringComparison.Ordinal) ? word[(word.IndexOf('=', StringComparison.Ordinal) + 1)..].Trim() : string.Empty;
            now.Remove(KeyOf(word));
            if (words.Length > 0)
            {
                now[KeyOf(word)] = words;
            }
        }

        return now.Count == 0 ? null : now;
    }

    private static string? Said(string? words, string? old) => words switch
    {
        null => old,
        "" => null,
        _ => words.Trim(),
    };
}
