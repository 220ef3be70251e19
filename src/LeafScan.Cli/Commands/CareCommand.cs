using System.CommandLine;
using System.Globalization;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Records;
using LeafScan.Trends.NextSteps;

namespace LeafScan.Cli.Commands;

/// <summary>care add: what was done to a plant.</summary>
internal static class CareCommand
{
    /// <summary>Why an entry is on record, for undo.</summary>
    public const string Undoable = "added by hand";

    private static readonly string[] Kinds = [.. Enum.GetNames<CareKind>().Select(name => name.ToLowerInvariant())];

    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string> code = PlantChoice.NewArgument();
        Option<string> what = new("--what") { Description = "What was done: " + string.Join(", ", Kinds) + ".", HelpName = "KIND", Required = true };
        what.OnlyOneOf(Kinds);
        Option<DateOnly?> date = OptionChecks.NewDay("--date", "Day on which it was done. Default: today.");
        Option<string?> note = new("--note") { Description = "More in your own words, such as product and label number.", HelpName = "TEXT" };
        Option<TimeOnly?> at = NewTime();
        Option<string?> active = Text("--active", "Active ingredient, as the label names it.");
        Option<string?> group = Text("--mode-group", "IRAC mode-of-action group, such as 10A; the label shows it.");
        Option<string?> label = Text("--label-number", "Registration number, as the label has it.");
        Option<string?> target = Text("--against", "What it was against, such as eggs or crawlers.");
        Option<string?> conditions = Text("--conditions", "Weather and circumstances, such as \"18 °C, no wind\".");
        Option<string?> place = PlantChoice.NewPlaceOption();
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand add = new(
            "add", "Keeps what was done to a plant, so that the series shows it.", "leafscan care add EU-1 --what rinse --date 2026-06-20 --note \"undersides, evening\"",
            "leafscan care add EU-1 --what miticide --active hexythiazox --mode-group 10A --label-number \"as on the bottle\" --at 19:30")
        {
            code, what, date, note, at, active, group, label, target, conditions, place, json,
        };
        add.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            Plant plant = PlantChoice.One(store, parsed.GetValue(code)!, parsed.GetValue(place));
            DateOnly day = OptionChecks.DayDone(parsed.GetValue(date), world);
            CareEntry entry = store.AddCare(plant.Id, day, Enum.Parse<CareKind>(parsed.GetValue(what)!, ignoreCase: true), parsed.GetValue(note), new CareDetails
            {
                At = parsed.GetValue(at),
                Active = parsed.GetValue(active),
                ModeGroup = parsed.GetValue(group),
                LabelNumber = parsed.GetValue(label),
                Target = parsed.GetValue(target),
                Conditions = parsed.GetValue(conditions),
            }, Undoable);
            string word = entry.What.ToString().ToLowerInvariant();
            string? again = entry.What == CareKind.Miticide
                ? ModeGroups.TwiceInARow(store.CareOfPlant(plant.Id).Where(old => old.DoneOn <= day).Select(RecordSituation.CareOf))
                : null;
            if (again is not null)
            {
                world.Err.WriteLine(Words.OneLine($"Group {again} twice in a row on {plant.Code}: mites that outlive one product outlive all of its group. Take another group next time."));
            }

            return Answer.Give(
                world, parsed, json,
                new
                {
                    schema = "leafscan.care/1",
                    tool = ToolVersion.Current,
                    number = entry.Id,
                    code = plant.Code,
                    place = plant.PlaceName,
                    date = Words.Day(day),
                    at = entry.Details.At?.ToString("HH:mm", CultureInfo.InvariantCulture),
                    what = word,
                    note = entry.Note,
                    active = entry.Details.Active,
                    modeGroup = entry.Details.ModeGroup,
                    sameGroupTwice = again,
                    labelNumber = entry.Details.LabelNumber,
                    against = entry.Details.Target,
                    conditions = entry.Details.Conditions,
                },
                $"Kept: {word} of {plant.Code} in {plant.PlaceName} on {Words.Day(day)}.");
        });
        return new Command("care", "Care: what was done to plants.") { add };
    }

    private static Option<string?> Text(string name, string description) => new(name) { Description = description, HelpName = "TEXT" };

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
