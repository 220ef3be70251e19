using LeafScan.Records;

namespace LeafScan.Notes.Client;

/// <summary>What identifies a plant below its name.</summary>
internal static class PlantLines
{
    /// <summary>Code, species and variety in one line; place, block, row and position in another.</summary>
    public static IReadOnlyList<string> Of(Plant plant)
    {
        string identity = string.Join(", ", new[]
        {
            $"Plant {plant.Code}",
            plant.Name is null ? null : plant.Species,
            plant.Facts.Cultivar is { } cultivar ? $"'{cultivar}'" : null,
        }.Where(word => word is not null));
        string where = string.Join(", ", new[]
        {
            plant.PlaceName, plant.Facts.Block, plant.Facts.Row is { } row ? $"row {row}" : null, plant.Facts.Position is { } position ? $"position {position}" : null,
        }.Where(word => word is not null));
        return [.. new[] { identity, where }.Where(line => line.Length > 0)];
    }
}
