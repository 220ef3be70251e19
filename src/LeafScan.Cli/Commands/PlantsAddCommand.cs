using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>plants add: a plant of which there is no photo yet, such as one that is only tapped, or a check plant noted in time.</summary>
internal static class PlantsAddCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string> code = PlantChoice.NewArgument();
        Option<string> place = new("--place") { Description = "Place in which it stands; begun when it is new.", HelpName = "NAME", Required = true };
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "add", "Begins a plant before there is a photo of it. Photos begin their plants by themselves.", "leafscan plants add EU-9 --place \"Hill nursery\"")
        {
            code, place, json,
        };
        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenOrBegin(parsed, world);
            (string name, string where) = (parsed.GetValue(code)!, parsed.GetValue(place)!);
            bool isNew = store.FindPlants(name, where).Count == 0;
            Plant plant = store.FindOrAddPlant(store.FindOrAddPlace(where).Id, name);
            return Answer.Give(
                world, parsed, json,
                new { schema = "leafscan.plant/1", tool = ToolVersion.Current, plant = PlantDocument.Of(plant) },
                isNew ? $"Begun: {PlantDocument.OnScreen(plant)}. What you know of it: leafscan plants set {plant.Code}" : $"It is on record: {PlantDocument.OnScreen(plant)}.");
        });
        return command;
    }
}
