using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>care add: what was done to a plant.</summary>
internal static class CareCommand
{
    private static readonly string[] Kinds = [.. Enum.GetNames<CareKind>().Select(name => name.ToLowerInvariant())];

    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string> code = PlantChoice.NewArgument();
        Option<string> what = new("--what") { Description = "What was done: " + string.Join(", ", Kinds) + ".", HelpName = "KIND", Required = true };
        what.OnlyOneOf(Kinds);
        Option<DateOnly?> date = OptionChecks.NewDay("--date", "Day on which it was done. Default: today.");
        Option<string?> note = new("--note") { Description = "More in your own words, such as product and label number.", HelpName = "TEXT" };
        Option<string?> place = PlantChoice.NewPlaceOption();
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand add = new(
            "add", "Keeps what was done to a plant, so that the series shows it.", "leafscan care add EU-1 --what rinse --date 2026-06-20 --note \"undersides, evening\"")
        {
            code, what, date, note, place, json,
        };
        add.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            Plant plant = PlantChoice.One(store, parsed.GetValue(code)!, parsed.GetValue(place));
            DateOnly day = parsed.GetValue(date) ?? DateOnly.FromDateTime(world.Time.GetLocalNow().DateTime);
            CareEntry entry = store.AddCare(plant.Id, day, Enum.Parse<CareKind>(parsed.GetValue(what)!, ignoreCase: true), parsed.GetValue(note));
            string word = entry.What.ToString().ToLowerInvariant();
            string? target = JsonOut.Target(parsed, json);
            if (target is not null)
            {
                JsonOut.Write(world, target, new
                {
                    schema = "leafscan.care/1",
                    tool = ToolVersion.Current,
                    code = plant.Code,
                    place = plant.PlaceName,
                    date = Words.Day(day),
                    what = word,
                    note = entry.Note,
                });
            }

            if (target != JsonOut.StandardOutput)
            {
                world.Out.WriteLine(Words.OneLine($"Kept: {word} of {plant.Code} in {plant.PlaceName} on {Words.Day(day)}."));
            }

            return ExitCode.Done;
        });
        return new Command("care", "Care: what was done to plants.") { add };
    }
}
