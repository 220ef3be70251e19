using System.CommandLine;
using System.Globalization;
using LeafScan.Cli.Screen;
using LeafScan.Records;
using LeafScan.Trends.NextSteps;

namespace LeafScan.Cli.Commands;

/// <summary>care add: what was done to a plant; care set puts it right.</summary>
internal static class CareCommand
{
    /// <summary>Why an entry is on record, for undo.</summary>
    public const string Undoable = "added by hand";

    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string> code = PlantChoice.NewArgument();
        CareNotes notes = new();
        notes.What.Required = true;
        Option<TimeOnly?> at = NewTime();
        Option<string?> place = PlantChoice.NewPlaceOption();
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand add = new(
            "add", "Keeps what was done to a plant, so that the series shows it.", "leafscan care add EU-1 --what rinse --date 2026-06-20 --note \"undersides, evening\"",
            "leafscan care add EU-1 --what miticide --active hexythiazox --mode-group 10A --label-number \"as on the bottle\" --at 19:30")
        {
            code, notes.What, notes.Date, at, place, json,
        };
        foreach (Option option in notes.Texts)
        {
            add.Options.Add(option);
        }

        add.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            Plant plant = PlantChoice.One(store, parsed.GetValue(code)!, parsed.GetValue(place));
            DateOnly day = OptionChecks.DayDone(parsed.GetValue(notes.Date), world);
            CareEntry told = notes.Change(parsed, new CareEntry(0, plant.Id, day, CareKind.Nothing, null) { Details = new CareDetails { At = parsed.GetValue(at) } });
            CareEntry entry = store.AddCare(plant.Id, day, told.What, told.Note, told.Details, Undoable);
            string? again = WarnOfGroup(store, world, plant, entry);
            return Answer.Give(
                world, parsed, json, CareEntryDocument.Of(plant, entry, again), $"Kept: {CareEntryDocument.Word(entry)} of {plant.Code} in {plant.PlaceName} on {Words.Day(day)}.");
        });
        return new Command("care", "Care: what was done to plants.") { add, CareSetCommand.Build(world) };
    }

    /// <summary>Warns where the same mode-of-action group was used twice in a row.</summary>
    /// <returns>The group; null when there is nothing to warn of.</returns>
    internal static string? WarnOfGroup(RecordStore store, Surroundings world, Plant plant, CareEntry entry)
    {
        string? again = entry.What == CareKind.Miticide
            ? ModeGroups.TwiceInARow(store.CareOfPlant(plant.Id).Where(old => old.DoneOn <= entry.DoneOn).Select(RecordSituation.CareOf))
            : null;
        if (again is not null)
        {
            world.Err.WriteLine(Words.OneLine($"Group {again} twice in a row on {plant.Code}: mites that outlive one product outlive all of its group. Take another group next time."));
        }

        return again;
    }

    private static Option<TimeOnly?> NewTime() => new("--at")
    {
        Description = "Time of day, such as 19:30.",
        HelpName = "HH:MM",
        CustomParser = result =>
        {
            if (TimeOnly.TryParseExact(result.Tokens[0].Value, "HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out TimeOnly time))
            {
                return time;
            }

            result.AddError($"--at takes a time such as 19:30, not \"{result.Tokens[0].Value}\".");
            return null;
        },
    };
}
