using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Records;
using LeafScan.Walks.Foliage;

namespace LeafScan.Cli.Commands;

/// <summary>plants set: what a person knows of a plant. An empty text clears a field.</summary>
internal static class PlantsSetCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string> code = PlantChoice.NewArgument();
        Option<string?> place = PlantChoice.NewPlaceOption();
        Option<string?> name = Text("--name", "What people call it.");
        Option<string?> species = Text("--species", "Botanical name, such as \"Euonymus alatus\".");
        Option<string?> cultivar = Text("--cultivar", "Named variety, such as Compactus.");
        Option<string?> block = Text("--block", "Bed, bench or block in which it stands; begun when it is new.");
        Option<string?> row = Text("--row", "Row within the block.");
        Option<string?> position = Text("--position", "Place within the row.");
        Option<string?> light = Text("--light", "Light and exposure, such as \"south wall\".");
        Option<string?> client = Text("--client", "Client to whom the plant's place belongs; counts for all plants of the place.");
        Option<string> calendar = new("--calendar") { Description = "When its mites feed: warm, cool, boxwood, or species to tell it from the species.", HelpName = "SEASON" };
        calendar.OnlyOneOf(["warm", "cool", "boxwood", "species"]);
        Option<string> check = new("--check") { Description = "yes for a plant that is left untreated, to compare others of its place and species with; no ends that." };
        check.OnlyOneOf(["yes", "no"]);
        Option<DateOnly?> dateIn = OptionChecks.NewDay("--date-in", "Day on which it came.");
        Option<double?> damage = new("--damage-at-delivery") { Description = "Damage when it came, in percent, 0 to 100.", HelpName = "PERCENT" };
        Option<string?> healthy = HealthyOption.New("A photo of it in health, a twig or the whole plant: twigs and whole plants of it are measured against that colour from now on; \"\" ends that.");
        Option<string> kind = KindOption.OfHealthyPhoto();
        Option<string?> reason = Text("--reason", "Why, for the list of edits.");
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "set",
            "Keeps what you know of a plant. What is not named stays; an empty text (\"\") clears; the old values are kept and can be undone.",
            "leafscan plants set EU-1 --species \"Euonymus alatus\" --cultivar Compactus --block \"South bed\" --row 3 --position 7",
            "leafscan plants set SPRUCE-4 --healthy spruce-may.jpg --kind plant",
            "leafscan plants set EU-2 --check yes --reason \"left alone to compare\"",
            "leafscan print tags --plants EU-1 --out tag.pdf")
        {
            code, place, name, species, cultivar, block, row, position, light, client, calendar, check, dateIn, damage, healthy, kind, reason, json,
        };
        command.SetAction((parsed, cancel) =>
        {
            if (parsed.GetValue(damage) is { } percent && !(percent is >= 0 and <= 100))
            {
                throw new CommandException(ExitCode.WrongUse, "--damage-at-delivery takes a percentage from 0 to 100. Nothing was changed.");
            }

            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            Plant plant = PlantChoice.One(store, parsed.GetValue(code)!, parsed.GetValue(place));
            string? sound = parsed.GetValue(healthy);
            HealthyOnRecord? colour = string.IsNullOrEmpty(sound) ? null : HealthyOption.Read(world, sound, PrinterScale.Options(parsed, world, parsed.GetValue(kind)), "Nothing was changed.", cancel);
            string why = parsed.GetValue(reason) ?? "plants set";
            Plant now = store.EditPlant(
                plant.Id,
                old => old with
                {
                    Name = parsed.GetValue(name) ?? old.Name,
                    Species = parsed.GetValue(species) ?? old.Species,
                    Facts = old.Facts with
                    {
                        Cultivar = parsed.GetValue(cultivar) ?? old.Facts.Cultivar,
                        Block = parsed.GetValue(block) ?? old.Facts.Block,
                        Row = parsed.GetValue(row) ?? old.Facts.Row,
                        Position = parsed.GetValue(position) ?? old.Facts.Position,
                        Light = parsed.GetValue(light) ?? old.Facts.Light,
                        Season = SeasonOf(parsed.GetValue(calendar), old.Facts.Season),
                        IsCheck = parsed.GetValue(check) is { } answer ? answer == "yes" : old.Facts.IsCheck,
                        DateIn = parsed.GetValue(dateIn) ?? old.Facts.DateIn,
                        DamageAtDelivery = parsed.GetValue(damage) / 100 ?? old.Facts.DamageAtDelivery,
                        Healthy = sound is null ? old.Facts.Healthy : colour,
                    },
                },
                why);
            if (parsed.GetValue(client) is { } who)
            {
                store.SetClient(now.PlaceId, who.Length == 0 ? null : who, why);
            }

            string kept = colour is null ? string.Empty : $" {HealthyFromPhoto.OldNumbersStay}";
            return Task.FromResult(Answer.Give(
                world, parsed, json,
                new { schema = "leafscan.plant/1", tool = ToolVersion.Current, plant = PlantDocument.Of(now) },
                $"Kept: {PlantDocument.OnScreen(now)}.{kept}", "To take it back: leafscan undo"));
        });
        return command;
    }

    private static Option<string?> Text(string name, string description) => new(name) { Description = description, HelpName = "TEXT" };

    private static MiteSeason? SeasonOf(string? word, MiteSeason? old) => word switch
    {
        null => old,
        "warm" => MiteSeason.Warm,
        "cool" => MiteSeason.Cool,
        "boxwood" => MiteSeason.Boxwood,
        _ => null,
    };
}
