using LeafScan.Records;

namespace LeafScan.Cli.Screen;

/// <summary>What is known of a plant, for documents and screens.</summary>
internal static class PlantDocument
{
    /// <summary>All of it; null where nothing is told.</summary>
    public static object Of(Plant plant) => new
    {
        code = plant.Code,
        place = plant.PlaceName,
        name = plant.Name,
        species = plant.Species,
        cultivar = plant.Facts.Cultivar,
        block = plant.Facts.Block,
        row = plant.Facts.Row,
        position = plant.Facts.Position,
        calendar = plant.Facts.Season?.ToString().ToLowerInvariant(),
        light = plant.Facts.Light,
        dateIn = plant.Facts.DateIn is { } day ? Words.Day(day) : null,
        damageAtDelivery = plant.Facts.DamageAtDelivery,
        healthyPhoto = plant.Facts.Healthy is { } healthy ? new { file = healthy.File, sha256 = healthy.Colour.Sha256, kind = healthy.Colour.Kind } : null,
        isCheck = plant.Facts.IsCheck,
    };

    /// <summary>One sentence without its full stop.</summary>
    public static string OnScreen(Plant plant)
    {
        PlantFacts facts = plant.Facts;
        IEnumerable<string> parts =
        [
            .. Part(string.Empty, plant.Name),
            .. Part(string.Empty, plant.Species is { } species && facts.Cultivar is { } cultivar ? $"{species} '{cultivar}'" : plant.Species ?? facts.Cultivar),
            .. Part("block ", facts.Block),
            .. Part("row ", facts.Row),
            .. Part("position ", facts.Position),
            .. Part(string.Empty, facts.Light),
            .. Part("mites of the ", facts.Season is { } season ? season.ToString().ToLowerInvariant() + " calendar" : null),
            .. Part("came ", facts.DateIn is { } day ? Words.Day(day) : null),
            .. Part("damage at delivery ", facts.DamageAtDelivery is { } damage ? Words.Percent(damage) + " %" : null),
            .. Part("in health as on ", facts.Healthy?.File),
            .. Part(string.Empty, facts.IsCheck ? "left untreated as a check" : null),
        ];
        string all = string.Join(", ", parts);
        return $"{plant.Code} in {plant.PlaceName}{(all.Length > 0 ? ": " + all : string.Empty)}";
    }

    private static IEnumerable<string> Part(string lead, string? text) => text is null ? [] : [lead + text];
}
