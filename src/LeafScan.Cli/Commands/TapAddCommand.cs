using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Cli.Taps;
using LeafScan.Records;
using LeafScan.Trends.Thresholds;

namespace LeafScan.Cli.Commands;

/// <summary>tap add: a tap that was counted with the eye, into the record.</summary>
internal static class TapAddCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string> code = PlantChoice.NewArgument();
        Option<int> mites = new("--mites") { Description = "Live plant-feeding mites counted with the lens; none is 0 and worth an entry.", HelpName = "N", Required = true };
        TapNotes notes = new();
        Option<int?> byPhoto = new("--by-photo") { Description = "Crawling specks that \"leafscan tap\" counted on photos of the same sheet.", HelpName = "N" };
        Option<DateOnly?> date = OptionChecks.NewDay("--date", "Day of the tap. Default: today.");
        Option<string?> place = PlantChoice.NewPlaceOption();
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "add", "Keeps a tap: what you counted on the sheet. The verdict reads it.",
            "leafscan tap add EU-1 --mites 4 --strikes 5 --predators 0 --hours-since-rinse 48", "leafscan tap add EU-2 --mites 0 --strikes 5 --date 2026-06-20 --note \"south side\"")
        {
            code, mites, byPhoto, date, place, json,
        };
        foreach (Option option in notes.Options)
        {
            command.Options.Add(option);
        }

        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            Plant plant = PlantChoice.One(store, parsed.GetValue(code)!, parsed.GetValue(place));
            DateOnly day = OptionChecks.DayDone(parsed.GetValue(date), world);
            TapOnRecord kept = store.AddTap(notes.Read(parsed, plant.Id, day) with { MitesByLens = parsed.GetValue(mites), MitesByPhoto = parsed.GetValue(byPhoto) }, CareCommand.Undoable);
            (Threshold? threshold, string beside) = TapBeside.Say(store, plant, day);
            return Answer.Give(
                world, parsed, json,
                TapEntryDocument.Of(plant, kept, threshold, beside),
                TapNotes.Sentence(plant, kept),
                beside);
        });
        return command;
    }
}
