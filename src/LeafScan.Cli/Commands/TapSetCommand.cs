using System.CommandLine;
using System.Globalization;
using LeafScan.Cli.Screen;
using LeafScan.Cli.Taps;
using LeafScan.Records;
using LeafScan.Trends.Thresholds;

namespace LeafScan.Cli.Commands;

/// <summary>tap set: puts a tap right that is on record.</summary>
internal static class TapSetCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<long> number = new("NUMBER") { Description = "Number of the tap: tap add and series --json show it." };
        Option<int?> mites = new("--mites") { Description = "Live plant-feeding mites counted with the lens.", HelpName = "N" };
        Option<int?> byPhoto = new("--by-photo") { Description = "Crawling specks counted on photos of the same sheet.", HelpName = "N" };
        Option<DateOnly?> date = OptionChecks.NewDay("--date", "Day of the tap.");
        Option<string[]> clear = new("--clear") { Description = "What was not counted or noted after all: " + string.Join(", ", TapNotes.Clearable) + ".", HelpName = "NAME", AllowMultipleArgumentsPerToken = false };
        clear.Validators.Add(result =>
        {
            if (result.Tokens.Select(token => token.Value).FirstOrDefault(word => !TapNotes.Clearable.Contains(word, StringComparer.Ordinal)) is { } unknown)
            {
                result.AddError($"--clear takes {string.Join(", ", TapNotes.Clearable.SkipLast(1))} or {TapNotes.Clearable[^1]}, not \"{unknown}\".");
            }
        });
        Option<string?> reason = new("--reason") { Description = "Why, for the list of edits.", HelpName = "TEXT" };
        Option<string?> json = JsonOut.NewOption();
        TapNotes notes = new();
        ExampleCommand command = new(
            "set", "Puts a tap right that is on record. What is not named stays; --clear takes a number away; the old values are kept and can be undone.",
            "leafscan tap set 7 --mites 12", "leafscan tap set 7 --date 2026-06-19 --clear predators --reason \"did not look for them\"")
        {
            number, mites, byPhoto, date, clear, reason, json,
        };
        foreach (Option option in notes.Options)
        {
            command.Options.Add(option);
        }

        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            long id = parsed.GetValue(number);
            DateOnly? day = parsed.GetValue(date) is { } named ? OptionChecks.DayDone(named, world) : null;
            TapOnRecord kept = store.EditTap(
                id,
                old => TapNotes.Cleared(
                    notes.Change(parsed, old with { Day = day ?? old.Day, MitesByLens = parsed.GetValue(mites) ?? old.MitesByLens, MitesByPhoto = parsed.GetValue(byPhoto) ?? old.MitesByPhoto }),
                    parsed.GetValue(clear) ?? []),
                parsed.GetValue(reason) ?? "tap set")
                ?? throw new CommandException(ExitCode.WrongUse, string.Create(CultureInfo.InvariantCulture, $"There is no tap {id} outside the bin. Nothing was changed. Numbers: leafscan series PLANT --json"));
            Plant plant = store.FindPlant(kept.Tap.PlantId)!;
            (Threshold? threshold, string beside) = TapBeside.Say(store, plant, kept.Tap.Day);
            return Answer.Give(world, parsed, json, TapEntryDocument.Of(plant, kept, threshold, beside), TapNotes.Sentence(plant, kept), beside, "To take it back: leafscan undo");
        });
        return command;
    }
}
