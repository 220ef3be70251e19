using System.CommandLine;
using System.Globalization;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Records;
using LeafScan.Trends.Weather;

namespace LeafScan.Cli.Commands;

/// <summary>weather: what weather is on record, with the degree days that it adds up to.</summary>
internal static class WeatherListCommand
{
    // Most tables count from here (New York and neighbours; reference dates differ by region and are told beside the number).
    private const int StartMonth = 3;

    /// <summary>Builds the command around its part "add".</summary>
    public static Command Build(Surroundings world, Command add)
    {
        Option<string?> place = new("--place") { Description = "Only of this place.", HelpName = "NAME" };
        Option<DateOnly?> from = OptionChecks.NewDay("--from", "Day from which degree days are counted. Default: 1 March of the last year on record.");
        Option<DateOnly?> to = OptionChecks.NewDay("--to", "Last day. Default: the last one on record.");
        Option<double> lower = new("--base") { Description = "Lower threshold in °C, -20 to 40. Default: 10 °C (50 °F).", DefaultValueFactory = _ => DegreeDaySum.UsualBaseC, HelpName = "C" };
        Option<double?> upper = new("--upper") { Description = "Upper threshold in °C, above the lower one. Default: none.", HelpName = "C" };
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "weather", "Lists the weather on record of each place and the degree days (single sine) that it adds up to.", "leafscan weather", "leafscan weather --place \"Hill nursery\" --from 2026-03-01 --base 10 --json")
        {
            place, from, to, lower, upper, json, add,
        };
        command.SetAction(parsed =>
        {
            (double baseC, double? upperC) = (parsed.GetValue(lower), parsed.GetValue(upper));
            if (baseC is not (>= -20 and <= 40) || upperC is { } most && !(most > baseC && most <= 60))
            {
                throw new CommandException(ExitCode.WrongUse, "--base lies from -20 to 40 °C, and --upper above it, up to 60 °C. Nothing was done.");
            }

            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            string? name = parsed.GetValue(place);
            IReadOnlyList<Place> places = name is null
                ? store.Places()
                : [store.FindPlace(name) ?? throw new CommandException(ExitCode.WrongUse, WeatherCommand.NoPlace(store, name))];
            Line[] lines = [.. places.Select(one => LineOf(one, store.WeatherOfPlace(one.Id), parsed.GetValue(from), parsed.GetValue(to), baseC, upperC))];
            return Answer.Give(
                world, parsed, json,
                new
                {
                    schema = "leafscan.weather/1",
                    tool = ToolVersion.Current,
                    baseC,
                    upperC,
                    places = lines.Select(line => new
                    {
                        place = line.Place,
                        days = line.Days,
                        first = line.First is { } first ? Words.Day(first) : null,
                        last = line.Last is { } last ? Words.Day(last) : null,
                        from = line.From is { } start ? Words.Day(start) : null,
                        to = line.To is { } end ? Words.Day(end) : null,
                        degreeDaysC = FigureDocument.Round(line.Sum?.SumC),
                        degreeDaysF = FigureDocument.Round(line.Sum?.SumF),
                        daysMissing = line.Sum?.DaysMissing,
                    }),
                },
                lines.Length == 0 ? ["No place is on record. Add a walk first: leafscan walk add FOLDER --place NAME"] : [.. lines.Select(line => Sentence(line, baseC, upperC))]);
        });
        return command;
    }

    private static Line LineOf(Place place, IReadOnlyList<WeatherDay> days, DateOnly? from, DateOnly? to, double baseC, double? upperC)
    {
        if (days.Count == 0)
        {
            return new Line(place.Name, 0, null, null, null, null, null);
        }

        DateOnly end = to ?? days[^1].Day;
        DateOnly start = from ?? (end.Month >= StartMonth ? new DateOnly(end.Year, StartMonth, 1) : new DateOnly(end.Year, 1, 1));
        if (start > end)
        {
            throw new CommandException(ExitCode.WrongUse, $"--from {Words.Day(start)} lies after {Words.Day(end)}, the last day. Nothing was done.");
        }

        return new Line(place.Name, days.Count, days[0].Day, days[^1].Day, start, end, DegreeDaySum.Of(days.Select(day => new DayTemperature(day.Day, day.LowC, day.HighC)), start, end, baseC, upperC));
    }

    private static string Sentence(Line line, double baseC, double? upperC)
    {
        if (line.First is not { } first)
        {
            return $"{line.Place}: no weather on record. Add it: leafscan weather add FILE --place \"{line.Place}\"";
        }

        string span = $"{line.Place}: {Words.Count(line.Days, "day")} from {Words.Day(first)} to {Words.Day(line.Last!.Value)}.";
        string bounds = string.Create(CultureInfo.InvariantCulture, $"above {baseC:0.#} °C{(upperC is { } most ? string.Create(CultureInfo.InvariantCulture, $" up to {most:0.#} °C") : string.Empty)}");
        if (line.Sum is not { } sum)
        {
            return $"{span} Degree days {bounds} from {Words.Day(line.From!.Value)} to {Words.Day(line.To!.Value)}: cannot say, more than one day in ten has no weather. Name --from where the weather begins.";
        }

        string missing = sum.DaysMissing == 0 ? string.Empty : $" ({Words.Count(sum.DaysMissing, "day")} missing: at least that)";
        return string.Create(CultureInfo.InvariantCulture, $"{span} Degree days {bounds} from {Words.Day(sum.From)} to {Words.Day(sum.To)}: {sum.SumC:0} in °C, {sum.SumF:0} in °F{missing}.");
    }

    private sealed record Line(string Place, int Days, DateOnly? First, DateOnly? Last, DateOnly? From, DateOnly? To, DegreeDaySum? Sum);
}
