using LeafScan.Leaves.Reading;
using LeafScan.Records;
using LeafScan.Trends;

namespace LeafScan.Notes.Exports;

/// <summary>The series of plants for other software (schema leafscan.series-table/1): a row for each walk of each plant.</summary>
public static class SeriesTable
{
    private static readonly string[] Columns =
    [
        "place", "plant", "name", "species", "block", "row", "position", "date", "leaves", "leavesLeftOut", "photos", "damage", "damageLow", "damageHigh",
        .. FigureColumns.Shares, "affectedLeaves", "affectedShare", "affectedLow", "affectedHigh",
    ];

    /// <summary>Makes the table.</summary>
    /// <param name="store">The record.</param>
    /// <param name="plants">Which plants, in the order of the rows.</param>
    public static ExportTable Of(RecordStore store, IReadOnlyList<Plant> plants)
    {
        ExportTable table = new("leafscan.series-table/1", "walks", Columns);
        ILookup<long, LeafOnRecord> leaves = store.LeavesOfPlants(plants.Select(plant => plant.Id)).ToLookup(leaf => leaf.PlantId);
        foreach (Plant plant in plants)
        {
            foreach (SeriesPoint point in SteadyChance.SeriesOf(leaves[plant.Id]))
            {
                LeafFigures figures = point.Leaves;
                table.Add(
                [
                    plant.PlaceName, plant.Code, plant.Name, plant.Species, plant.Facts.Block, plant.Facts.Row, plant.Facts.Position, point.WalkedOn,
                    .. FigureColumns.Head(figures), .. FigureColumns.SharesOf(figures.Shares),
                    figures.AffectedCount, ExportTable.Round(figures.AffectedShare), ExportTable.Round(figures.AffectedInterval?.Low), ExportTable.Round(figures.AffectedInterval?.High),
                ]);
            }
        }

        return table;
    }
}

/// <summary>Columns that several tables share.</summary>
internal static class FigureColumns
{
    public static readonly string[] Shares = ["sound", "stippled", "yellowed", "browned", "chewed", "unassessed"];

    /// <summary>leaves, leavesLeftOut, photos, damage, damageLow, damageHigh.</summary>
    public static IEnumerable<object?> Head(LeafFigures figures) =>
    [
        figures.LeafCount, figures.LeafCountLeftOut, figures.PhotoCount,
        ExportTable.Round(figures.Damage), ExportTable.Round(figures.DamageInterval?.Low), ExportTable.Round(figures.DamageInterval?.High),
    ];

    public static IEnumerable<object?> SharesOf(LeafShares? shares)
    {
        LeafShares? round = shares is null ? null : ReadingRounding.Round(shares);
        return [round?.Sound, round?.Stippled, round?.Yellowed, round?.Browned, round?.Chewed, round?.Unassessed];
    }
}
