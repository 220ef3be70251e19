using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
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
        Option<int?> strikes = new("--strikes") { Description = "How often the branch was struck.", HelpName = "N" };
        Option<int?> branches = new("--branches") { Description = "Branches that were struck.", HelpName = "N" };
        Option<int?> predators = new("--predators") { Description = "Predators on the sheet, 0 when there were none; leave out when you did not look.", HelpName = "N" };
        Option<int?> byPhoto = new("--by-photo") { Description = "Crawling specks that \"leafscan tap\" counted on photos of the same sheet.", HelpName = "N" };
        Option<double?> hours = new("--hours-since-rinse") { Description = "Hours since the plant was last wet by rinse or rain.", HelpName = "H" };
        Option<string?> sheet = new("--sheet") { Description = "Size of the sheet in mm, such as 210x297.", HelpName = "WxH" };
        Option<DateOnly?> date = OptionChecks.NewDay("--date", "Day of the tap. Default: today.");
        Option<string?> note = new("--note") { Description = "More in your own words.", HelpName = "TEXT" };
        Option<string?> place = PlantChoice.NewPlaceOption();
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "add", "Keeps a tap: what you counted on the sheet. The verdict reads it.",
            "leafscan tap add EU-1 --mites 4 --strikes 5 --predators 0 --hours-since-rinse 48", "leafscan tap add EU-2 --mites 0 --strikes 5 --date 2026-06-20 --note \"south side\"")
        {
            code, mites, strikes, branches, predators, byPhoto, hours, sheet, date, note, place, json,
        };
        command.SetAction(parsed =>
        {
            (double Width, double Height)? size = SizeOf(parsed.GetValue(sheet));
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            Plant plant = PlantChoice.One(store, parsed.GetValue(code)!, parsed.GetValue(place));
            TapOnRecord kept = store.AddTap(new NewTap
            {
                PlantId = plant.Id,
                Day = parsed.GetValue(date) ?? DateOnly.FromDateTime(world.Time.GetLocalNow().DateTime),
                MitesByLens = parsed.GetValue(mites),
                MitesByPhoto = parsed.GetValue(byPhoto),
                Strikes = parsed.GetValue(strikes),
                Branches = parsed.GetValue(branches),
                Predators = parsed.GetValue(predators),
                HoursSinceWet = parsed.GetValue(hours),
                SheetWidthMm = size?.Width,
                SheetHeightMm = size?.Height,
                Note = parsed.GetValue(note),
            });
            NewTap tap = kept.Tap;
            string struck = tap.Strikes is { } times ? $" from {Words.Count(times, "strike")}" : string.Empty;
            string hunters = tap.Predators is { } count ? $", {Words.Count(count, "predator")}" : string.Empty;
            (Threshold? threshold, string beside) = TapBeside.Say(store, DataPlace.Of(parsed, world).FolderPath, plant, tap.Day);
            return Answer.Give(
                world, parsed, json,
                new
                {
                    schema = "leafscan.tap-entry/1",
                    tool = ToolVersion.Current,
                    number = kept.Id,
                    code = plant.Code,
                    place = plant.PlaceName,
                    date = Words.Day(tap.Day),
                    mites = kept.LiveMites,
                    mitesByPhoto = tap.MitesByPhoto,
                    strikes = tap.Strikes,
                    branches = tap.Branches,
                    predators = tap.Predators,
                    hoursSinceRinse = tap.HoursSinceWet,
                    sheetWidthMm = tap.SheetWidthMm,
                    sheetHeightMm = tap.SheetHeightMm,
                    note = tap.Note,
                    threshold = threshold is null ? null : ThresholdDocument.Entry(threshold),
                    beside,
                },
                $"Kept: {Words.Count(kept.LiveMites, "live mite")}{struck}{hunters} on {plant.Code} in {plant.PlaceName}, {Words.Day(tap.Day)}.",
                beside);
        });
        return command;
    }

    private static (double Width, double Height)? SizeOf(string? text)
    {
        if (text is null)
        {
            return null;
        }

        string[] parts = text.Split('x', 'X');
        return parts.Length == 2 && Number(parts[0]) is { } width && Number(parts[1]) is { } height
            ? (width, height)
            : throw new CommandException(ExitCode.WrongUse, $"--sheet takes width and height in mm such as 210x297, not \"{text}\". Nothing was kept.");
    }

    private static double? Number(string text)
        => double.TryParse(text, System.Globalization.NumberStyles.AllowDecimalPoint, System.Globalization.CultureInfo.InvariantCulture, out double value) ? value : null;
}
