using System.Globalization;
using LeafScan.Records;

namespace LeafScan.Walks.Blocks;

/// <summary>Puts the plants of a walk through a block into that block, with row and position where their codes tell them.</summary>
public static class BlockPlants
{
    /// <summary>
    /// Notes block, row and position of each plant that has none yet; what a person noted before stays. Doing it twice
    /// changes nothing.
    /// </summary>
    /// <param name="store">The record.</param>
    /// <param name="place">Place in which the plants stand.</param>
    /// <param name="block">Name of the block.</param>
    /// <param name="codes">Codes of the plants.</param>
    /// <returns>Codes of plants that stand in another block on record.</returns>
    public static IReadOnlyList<string> Note(RecordStore store, string place, string block, IReadOnlySet<string> codes)
    {
        List<string> elsewhere = [];
        foreach (Plant plant in store.Plants(place).Where(plant => codes.Contains(plant.Code)))
        {
            RowPosition? stands = RowPosition.OfText(plant.Code);
            string? row = plant.Facts.Row ?? stands?.Row.ToString(CultureInfo.InvariantCulture);
            string? position = plant.Facts.Position ?? stands?.Position.ToString(CultureInfo.InvariantCulture);
            if (plant.Facts.Block is { } other && !string.Equals(other, block, StringComparison.OrdinalIgnoreCase))
            {
                elsewhere.Add(plant.Code);
            }
            else if (plant.Facts.Block is null || row != plant.Facts.Row || position != plant.Facts.Position)
            {
                store.EditPlant(
                    plant.Id, old => old with { Facts = old.Facts with { Block = old.Facts.Block ?? block, Row = row, Position = position } }, $"scored in block {block}");
            }
        }

        return elsewhere;
    }
}
