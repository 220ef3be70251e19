using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Records;
using LeafScan.Trends;

namespace LeafScan.Cli.Commands;

/// <summary>compare: every plant in one month beside the same plant in another.</summary>
internal static class CompareCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Option<Month?> from = MonthOption("--from", "The earlier month.");
        Option<Month?> to = MonthOption("--to", "The later month.");
        Option<string?> place = new("--place") { Description = "Only plants of this place.", HelpName = "NAME" };
        Option<string?> block = new("--block") { Description = "Only plants of this block.", HelpName = "NAME" };
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "compare", "Shows each plant in one month beside another month.", "leafscan compare --from 2026-06 --to 2026-07", "leafscan compare --from 2026-06 --to 2026-07 --json")
        {
            from, to, place, block, json,
        };
        command.SetAction(parsed =>
        {
            (Month first, Month second) = (parsed.GetValue(from)!.Value, parsed.GetValue(to)!.Value);
            if (first.FirstDay >= second.FirstDay)
            {
                throw new CommandException(ExitCode.WrongUse, $"--from {first} does not lie before --to {second}. Nothing was done.");
            }

            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            List<(Plant Plant, MonthComparison Months)> plants = Compare(store, first, second, parsed.GetValue(place), parsed.GetValue(block));
            string? target = JsonOut.Target(parsed, json);
            if (target is not null)
            {
                JsonOut.Write(world, target, Document(first, second, plants));
            }

            if (target != JsonOut.StandardOutput)
            {
                CompareTable.Write(world.Out, first, second, plants);
            }

            return ExitCode.Done;
        });
        return command;
    }

    /// <summary>Compares every plant that has a leaf in one of the months.</summary>
    public static List<(Plant Plant, MonthComparison Months)> Compare(RecordStore store, Month from, Month to, string? place, string? block = null)
    {
        IReadOnlyList<Plant> plants = store.Plants(place, block);
        long[] ids = [.. plants.Select(plant => plant.Id)];

        // Two questions, so that the leaves of the months between are never read.
        ILookup<long, LeafOnRecord> leaves = store.LeavesOfPlants(ids, from.FirstDay, from.LastDay).Concat(store.LeavesOfPlants(ids, to.FirstDay, to.LastDay))
            .ToLookup(leaf => leaf.PlantId);
        return
        [
            .. plants.Where(plant => leaves.Contains(plant.Id)).AsParallel().AsOrdered()
                .Select(plant => (plant, MonthComparison.Of(leaves[plant.Id], from, to, null, Chance.New()))),
        ];
    }

    private static Option<Month?> MonthOption(string name, string description) => new(name)
    {
        Description = description,
        HelpName = "YYYY-MM",
        Required = true,
        CustomParser = result =>
        {
            Month? month = Month.Parse(result.Tokens[0].Value);
            if (month is null)
            {
                result.AddError($"{name} takes a month such as 2026-07, not \"{result.Tokens[0].Value}\".");
            }

            return month;
        },
    };

    private static object Document(Month from, Month to, List<(Plant Plant, MonthComparison Months)> plants) => new
    {
        schema = "leafscan.compare/1",
        tool = ToolVersion.Current,
        from = from.ToString(),
        to = to.ToString(),
        plants = plants.Select(pair => new
        {
            code = pair.Plant.Code,
            place = pair.Plant.PlaceName,
            earlier = FigureDocument.Of(pair.Months.Earlier),
            later = FigureDocument.Of(pair.Months.Later),
            difference = FigureDocument.Round(pair.Months.Difference),
            differenceLow = FigureDocument.Round(pair.Months.DifferenceInterval?.Low),
            differenceHigh = FigureDocument.Round(pair.Months.DifferenceInterval?.High),
            change = CompareTable.NameOf(pair.Months.Word),
            because = pair.Months.Because,
            caution = pair.Months.Caution,
        }),
    };
}
