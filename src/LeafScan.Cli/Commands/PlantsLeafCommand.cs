using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>plants leaf: how old the leaf of a photo is, and which tagged leaf it shows.</summary>
internal static class PlantsLeafCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string> photo = PhotoChoice.NewArgument();
        Option<string> age = new("--age") { Description = "Age of its leaves: old, new or unknown." };
        age.OnlyOneOf(["old", "new", "unknown"]);
        Option<string?> label = new("--label") { Description = "Label of a leaf that is photographed again on each walk; \"\" for none.", HelpName = "LABEL" };
        Option<int?> leaf = new("--leaf") { Description = "Only this leaf of the photo, counted from 1, the largest. Default: all.", HelpName = "N" };
        Option<string?> plant = PhotoChoice.NewPlantOption();
        Option<string?> place = PlantChoice.NewPlaceOption();
        Option<string?> reason = new("--reason") { Description = "Why, for the list of edits.", HelpName = "TEXT" };
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "leaf",
            "Notes how old the leaf of a photo is and which tagged leaf it shows, so that it is followed from walk to walk.",
            "leafscan plants leaf IMG_0411.jpg --age old --label 3", "leafscan plants leaf IMG_0412.jpg --leaf 2 --label 4 --plant EU-1")
        {
            photo, age, label, leaf, plant, place, reason, json,
        };
        command.SetAction(parsed =>
        {
            if (parsed.GetValue(age) is null && parsed.GetValue(label) is null)
            {
                throw new CommandException(ExitCode.WrongUse, "Say what is known of the leaf: --age, --label or both. Nothing was changed.");
            }

            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            PhotoOnRecord found = PhotoChoice.One(store, parsed.GetValue(photo)!, parsed.GetValue(plant), parsed.GetValue(place));
            int? number = parsed.GetValue(leaf);
            LeafOnRecord? before = found.PlantId is { } plantId
                ? store.LeavesOfPlant(plantId).FirstOrDefault(one => one.PhotoId == found.Id && one.Ordinal == (number ?? 1) - 1)
                : null;
            LeafGrowth? growth = parsed.GetValue(age) switch
            {
                "old" => LeafGrowth.Old,
                "new" => LeafGrowth.New,
                "unknown" => null,
                _ => number is null ? found.LeafAge : before?.Age,
            };
            string? tag = parsed.GetValue(label) is { } given ? (given.Length == 0 ? null : given) : number is null ? found.LeafTag : before?.Tag;
            string why = parsed.GetValue(reason) ?? "plants leaf";
            if (number is { } only)
            {
                store.NoteLeaf(found.Id, only - 1, growth, tag, why);
            }
            else
            {
                store.NotePhotoLeaf(found.Id, growth, tag, why);
            }

            string words = LeafText.Of(growth, tag);
            return Answer.Give(
                world, parsed, json,
                new { schema = "leafscan.leaf-note/1", tool = ToolVersion.Current, file = found.FileName, plant = found.PlantCode, leaf = number, age = LeafText.InDocuments(growth), label = tag },
                $"Kept: {found.FileName}{(number is { } n ? $", leaf {Words.Number(n)}" : string.Empty)}: {(words.Length > 0 ? words : "nothing told")}.");
        });
        return command;
    }
}
