using System.Globalization;
using LeafScan.Cli.Screen;
using LeafScan.Trends.Blocks;

namespace LeafScan.Cli.Blocks;

/// <summary>The map of a block in plain text: a line a row, a number a plant.</summary>
internal static class BlockMapText
{
    private const int PositionsAcross = 20;

    /// <summary>Writes the map; nothing when no plant tells its row.</summary>
    public static void Write(TextWriter writer, BlockScore score)
    {
        List<BlockPlant> placed = [.. score.Plants.Where(plant => plant is { Row: not null, Position: not null })];
        if (placed.Count == 0)
        {
            return;
        }

        Dictionary<(int, int), BlockPlant> at = [];
        foreach (BlockPlant plant in placed)
        {
            at.TryAdd((plant.Row!.Value, plant.Position!.Value), plant);
        }

        int[] rows = [.. placed.Select(plant => plant.Row!.Value).Distinct().Order()];
        writer.WriteLine("Damage in % of the leaf; * an affected plant, ? nothing could be measured, . no photo");
        foreach (int[] positions in placed.Select(plant => plant.Position!.Value).Distinct().Order().Chunk(PositionsAcross))
        {
            TextTable table = new(["position", .. positions.Select(position => ">" + position.ToString(CultureInfo.InvariantCulture))]);
            foreach (int row in rows)
            {
                table.Add([$"row {row.ToString(CultureInfo.InvariantCulture)}", .. positions.Select(position => Cell(at.GetValueOrDefault((row, position))))]);
            }

            table.WriteTo(writer);
        }
    }

    private static string Cell(BlockPlant? plant) => plant is null ? "." : BlockScreen.Cell(plant) + (plant.IsAffected == true ? "*" : string.Empty);
}
