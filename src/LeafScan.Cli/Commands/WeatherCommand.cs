using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>weather add: lowest and highest temperatures of a place, from a CSV file.</summary>
internal static class WeatherCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string> file = new("FILE") { Description = "CSV with a first line date,min,max and a line a day, days written 2026-07-02." };
        Option<string> place = new("--place") { Description = "Place on record whose weather it is.", HelpName = "NAME", Required = true };
        Option<string> unit = new("--unit") { Description = "C or F. Default: C.", DefaultValueFactory = _ => "C" };
        unit.OnlyOneOf(["C", "F"]);
        Option<string?> source = new("--source") { Description = "Where the figures come from, in your words. Default: the file's name.", HelpName = "TEXT" };
        Option<bool> replace = new("--replace") { Description = "Days on record with other figures get those of the file; the old ones are kept and can be undone." };
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand add = new(
            "add", "Keeps the weather of a place. A day that is on record stays as it is, so the same file may be added again.",
            "leafscan weather add june.csv --place \"Hill nursery\"", "leafscan weather add june.csv --place \"Hill nursery\" --unit F --source \"airport\"")
        {
            file, place, unit, source, replace, json,
        };
        add.SetAction(parsed =>
        {
            IReadOnlyList<WeatherDay> days = WeatherTable.Read(parsed.GetValue(file)!, parsed.GetValue(unit) == "F");
            foreach (WeatherDay end in (WeatherDay[])[days[0], days[^1]])
            {
                OptionChecks.DayDone(end.Day, world);
            }

            if (parsed.GetValue(source) is { } words)
            {
                days = [.. days.Select(day => day with { Source = words })];
            }

            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            Place where = store.FindPlace(parsed.GetValue(place)!) ?? throw new CommandException(ExitCode.WrongUse, NoPlace(store, parsed.GetValue(place)!));
            WeatherAdded added = store.AddWeather(where.Id, days, parsed.GetValue(replace) ? "weather replaced" : null);
            foreach (WeatherDay day in added.Different.Take(10))
            {
                world.Err.WriteLine(added.IsReplaced
                    ? FormattableString.Invariant($"{Words.Day(day.Day)} was {day.LowC:0.0} to {day.HighC:0.0} °C and is replaced.")
                    : FormattableString.Invariant($"{Words.Day(day.Day)} is on record with other figures; it stays. The file says {day.LowC:0.0} to {day.HighC:0.0} °C. To take those: --replace"));
            }

            return Answer.Give(
                world, parsed, json,
                new
                {
                    schema = "leafscan.weather-added/1",
                    tool = ToolVersion.Current,
                    place = where.Name,
                    first = Words.Day(days[0].Day),
                    last = Words.Day(days[^1].Day),
                    added = added.Added,
                    alreadyHere = added.Same,
                    replaced = added.IsReplaced,
                    different = added.Different.Select(day => new { date = Words.Day(day.Day), lowC = day.LowC, highC = day.HighC }),
                },
                $"{where.Name}: {Words.Count(added.Added, "day")} added, {Words.Number(added.Same)} already here, {Words.Number(added.Different.Count)} with other figures {(added.IsReplaced ? "replaced" : "left as they were")}.");
        });
        return WeatherListCommand.Build(world, add);
    }

    /// <summary>What is said where a place is not on record.</summary>
    public static string NoPlace(RecordStore store, string name)
    {
        IReadOnlyList<Place> places = store.Places();
        string some = places.Count == 0 ? "There is no place yet." : "There are: " + string.Join(", ", places.Take(12).Select(place => $"\"{place.Name}\"")) + ".";
        return $"No place \"{name}\" is on record. {some} Nothing was done.";
    }
}
