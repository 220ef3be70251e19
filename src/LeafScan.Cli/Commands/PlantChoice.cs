using System.CommandLine;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>Finds the plant a person means by its code.</summary>
internal static class PlantChoice
{
    /// <summary>Argument PLANT.</summary>
    public static Argument<string> NewArgument() => new("PLANT") { Description = "Code of the plant." };

    /// <summary>Option --place, for codes that several places use.</summary>
    public static Option<string?> NewPlaceOption() => new("--place") { Description = "Only of this place; needed where two places use the same plant code.", HelpName = "NAME" };

    /// <summary>The one plant of this code.</summary>
    /// <exception cref="CommandException">There is none, or several places have one.</exception>
    public static Plant One(RecordStore store, string code, string? place)
    {
        IReadOnlyList<Plant> plants = store.FindPlants(code, place);
        if (plants.Count == 1)
        {
            return plants[0];
        }

        if (plants.Count > 1)
        {
            string places = string.Join(", ", plants.Select(plant => $"\"{plant.PlaceName}\""));
            throw new CommandException(ExitCode.WrongUse, $"{places} each have a plant {code}. Say which with --place.");
        }

        string where = place is null ? "on record" : $"on record in \"{place}\"";
        IReadOnlyList<PlantOverview> all = store.PlantOverviews(place);
        string some = all.Count == 0 ? "There is no plant yet." : "There are: " + string.Join(", ", all.Take(12).Select(plant => plant.Plant.Code)) + (all.Count > 12 ? ", ..." : ".");
        throw new CommandException(ExitCode.WrongUse, $"No plant {code} is {where}. {some}");
    }
}
