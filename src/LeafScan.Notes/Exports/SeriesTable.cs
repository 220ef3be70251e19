using LeafScan.Records;
using LeafScan.Trends;

namespace LeafScan.Notes.Exports;

/// <summary>The series of plants as a table for other software: a line for each walk of each plant, shares and damage 0 to 1.</summary>
public static class SeriesTable
{
    /// <summary>Makes the table.</summary>
    /// <param name="store">The record.</param>
    /// <param name="plants">Which plants, in the order of the lines.</param>
    public static CsvText Of(RecordStore store, IReadOnlyList<Plant> plants)
    {
        CsvText csv = new("place", "plant", "name", "block", "date", "leaves", "damage", "damageLow", "damageHigh", "stippled", "yellowed", "browned", "chewed");
        ILookup<long, LeafOnRecord> leaves = store.LeavesOfPlants(plants.Select(plant => plant.Id)).ToLookup(leaf => leaf.PlantId);
        foreach (Plant plant in plants)
        {
            foreach (SeriesPoint point in SteadyChance.SeriesOf(leaves[plant.Id]))
            {
                LeafFigures figures = point.Leaves;
                csv.Add(
                    plant.PlaceName, plant.Code, plant.Name, plant.Facts.Block, point.WalkedOn, figures.LeafCount,
                    Round(figures.Damage), Round(figures.DamageInterval?.Low), Round(figures.DamageInterval?.High),
                    Round(figures.Shares?.Stippled), Round(figures.Shares?.Yellowed), Round(figures.Shares?.Browned), Round(figures.Shares?.Chewed));
            }
        }

        return csv;
    }

    // Six digits are more than any of it can mean.
    private static double? Round(double? value) => value is { } number ? Math.Round(number, 6) : null;
}
