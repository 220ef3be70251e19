using System.CommandLine;
using System.Globalization;
using LeafScan.Cli.Screen;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>care set: puts a care entry right.</summary>
internal static class CareSetCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<long> number = new("NUMBER") { Description = "Number of the entry: care add and series --json show it." };
        CareNotes notes = new();
        Option<string?> at = new("--at") { Description = "Time of day, such as 19:30.", HelpName = "HH:MM" };
        Option<string?> reason = new("--reason") { Description = "Why, for the list of edits.", HelpName = "TEXT" };
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "set", "Puts a care entry right. What is not named stays; an empty text (\"\") clears; the old values are kept and can be undone.",
            "leafscan care set 12 --date 2026-06-19", "leafscan care set 12 --what oil --note \"\" --reason \"read the bottle again\"")
        {
            number, notes.What, notes.Date, at, reason, json,
        };
        foreach (Option option in notes.Texts)
        {
            command.Options.Add(option);
        }

        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            long id = parsed.GetValue(number);
            DateOnly? day = parsed.GetValue(notes.Date) is { } named ? OptionChecks.DayDone(named, world) : null;
            string? time = parsed.GetValue(at);
            TimeOnly? clock = string.IsNullOrEmpty(time) ? null : TimeOf(time);
            CareEntry entry = store.EditCare(
                id,
                old => notes.Change(parsed, old with { DoneOn = day ?? old.DoneOn, Details = old.Details with { At = time is null ? old.Details.At : clock } }),
                parsed.GetValue(reason) ?? "care set")
                ?? throw new CommandException(ExitCode.WrongUse, string.Create(CultureInfo.InvariantCulture, $"There is no care entry {id} outside the bin. Nothing was changed. Numbers: leafscan series PLANT --json"));
            Plant plant = store.FindPlant(entry.PlantId)!;
            string? again = CareCommand.WarnOfGroup(store, world, plant, entry);
            return Answer.Give(
                world, parsed, json, CareEntryDocument.Of(plant, entry, again),
                string.Create(CultureInfo.InvariantCulture, $"Changed: entry {entry.Id} is now {CareEntryDocument.Word(entry)} of {plant.Code} in {plant.PlaceName} on {Words.Day(entry.DoneOn)}."),
                "To take it back: leafscan undo");
        });
        return command;
    }

    private static TimeOnly TimeOf(string text) => TimeOnly.TryParseExact(text, "HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out TimeOnly time)
        ? time
        : throw new CommandException(ExitCode.WrongUse, $"--at takes a time such as 19:30, not \"{text}\". Nothing was changed.");
}
