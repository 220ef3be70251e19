using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
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
        Option<string?> client = new("--client") { Description = "The country is that of this client and not your own.", HelpName = "NAME" };
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "sender", "Says who writes the notes and in which country's form; without options, shows it.",
            "leafscan note sender --by \"Jo Brandt\" --contact \"jo@brandt.example\" --country DE", "leafscan note sender --client \"Harbour Hotel\" --country US")
        {
            by, contact, country, client, json,
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
            };
            if (now != old)
            {
                (settings with { Note = now }).Save(store.Folder);
            }

            NoteSettings used = (settings with { Note = now }).NoteInUse;
            return Answer.Give(
                world, parsed, json,
                new { schema = "leafscan.note-sender/1", tool = ToolVersion.Current, by = used.By, contact = used.Contact, country = used.Country, client = whose, clientCountry = whose is null ? null : land },
                [
                    $"Notes are written by {used.By ?? "(nobody named)"}{(used.Contact is { } reach ? $", {reach}" : string.Empty)}; days are written as in {used.Country ?? "Great Britain, for no country is named"}.",
                    .. whose is null ? [] : new[] { $"For {whose}: as in {land ?? "your own country"}." },
                ]);
        });
        return command;
    }

    private static string? Said(string? words, string? old) => words switch
    {
        null => old,
        "" => null,
        _ => words.Trim(),
    };
}
