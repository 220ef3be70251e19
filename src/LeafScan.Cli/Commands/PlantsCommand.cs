using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Records;
using LeafScan.Trends;

namespace LeafScan.Cli.Commands;

/// <summary>plants: every plant on record with its last walk.</summary>
internal static class PlantsCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Option<string?> place = new("--place") { Description = "Only plants of this place.", HelpName = "NAME" };
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new("plants", "Lists the plants on record with their last walk.", "leafscan plants", "leafscan plants --place \"Hill nursery\" --json", "leafscan print tags --all --out tags.pdf")
        {
            place, json, PlantsAddCommand.Build(world), PlantsSetCommand.Build(world), PlantsLeafCommand.Build(world),
        };
        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            ILookup<long, LeafOnRecord> last = store.LeavesOfLastWalks(parsed.GetValue(place)).ToLookup(leaf => leaf.PlantId);
            List<PlantLine> plants =
            [
                .. store.PlantOverviews(parsed.GetValue(place)).AsParallel().AsOrdered()
                    .Select(plant => new PlantLine(plant, SteadyChance.SeriesOf(last[plant.Plant.Id]) is [.., SeriesPoint point] ? point : null)),
            ];
            string? target = JsonOut.Target(parsed, json);
            if (target is not null)
            {
                JsonOut.Write(world, target, Document(plants));
            }

            if (target != JsonOut.StandardOutput)
            {
                Write(world, plants);
            }

            return ExitCode.Done;
        });
        return command;
    }

    private sealed record PlantLine(PlantOverview Overview, SeriesPoint? Last);

    private static void Write(Surroundings world, List<PlantLine> plants)
    {
        if (plants.Count == 0)
        {
            world.Out.WriteLine("No plant is on record. Add photos first: leafscan walk add FOLDER --place NAME");
            return;
        }

        TextTable table = new("plant", "place", ">walks", ">photos", "last walk", ">leaves", ">damage %", "range");
        foreach (PlantLine line in plants)
        {
            LeafFigures? last = line.Last?.Leaves;
            table.Add(
                line.Overview.Plant.Code,
                line.Overview.Plant.PlaceName,
                Words.Number(line.Overview.WalkCount),
                Words.Number(line.Overview.PhotoCount),
                line.Last is { } point ? Words.Day(point.WalkedOn) : string.Empty,
                last is null ? string.Empty : Words.Number(last.LeafCount),
                last?.Damage is { } damage ? Words.Percent(damage) : "-",
                FigureDocument.Range(last?.DamageInterval));
        }

        table.WriteTo(world.Out);
    }

    private static object Document(List<PlantLine> plants) => new
    {
        schema = "leafscan.plants/1",
        tool = ToolVersion.Current,
        plants = plants.Select(line => new
        {
            code = line.Overview.Plant.Code,
            place = line.Overview.Plant.PlaceName,
            name = line.Overview.Plant.Name,
            species = line.Overview.Plant.Species,
            cultivar = line.Overview.Plant.Facts.Cultivar,
            block = line.Overview.Plant.Facts.Block,
            row = line.Overview.Plant.Facts.Row,
            position = line.Overview.Plant.Facts.Position,
            calendar = line.Overview.Plant.Facts.Season?.ToString().ToLowerInvariant(),
            light = line.Overview.Plant.Facts.Light,
            isCheck = line.Overview.Plant.Facts.IsCheck,
            walks = line.Overview.WalkCount,
            photos = line.Overview.PhotoCount,
            lastWalk = line.Last is { } point ? new { date = Words.Day(point.WalkedOn), figures = FigureDocument.Of(point.Leaves) } : null,
        }),
    };
}
