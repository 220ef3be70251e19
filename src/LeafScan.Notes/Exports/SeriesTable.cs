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
        .. FigureColumns.Shares, "affectedLeaves", "affectedShare", "affectedLow", "affectedHigh", .. FigureColumns.Foliage,
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
                    .. FigureColumns.FoliageOf(figures),
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

    /// <summary>What only whole plants and twigs have; the last columns of a table, empty for leaves.</summary>
    public static readonly string[] Foliage = ["thinning", "thinningLow", "thinningHigh", "worstSides", "worstHeights", "fallColour", "specksPerCmOfNeedle"];

    /// <summary>leaves, leavesLeftOut, photos, damage, damageLow, damageHigh.</summary>
    public static IEnumerable<object?> Head(LeafFigures figures) =>
    [
        figures.LeafCount, figures.LeafCountLeftOut, figures.PhotoCount,
        ExportTable.Round(figures.Damage), ExportTable.Round(figures.DamageInterval?.Low), ExportTable.Round(figures.DamageInterval?.High),
    ];

    public static IEnumerable<object?> FoliageOf(LeafFigures figures) =>
    [
        ExportTable.Round(figures.Crown?.Thinning), ExportTable.Round(figures.Crown?.ThinningInterval.Low), ExportTable.Round(figures.Crown?.ThinningInterval.High),
        figures.Crown?.WorstSides, figures.Crown?.WorstHeights, ExportTable.Round(figures.Crown?.FallColour), ExportTable.Round(figures.Needles?.SpecksPerCm),
    ];

    public static IEnumerable<object?> SharesOf(LeafShares? shares)
    {
        LeafShares? round = shares is null ? null : ReadingRounding.Round(shares);
        return [round?.Sound, round?.Stippled, round?.Yellowed, round?.Browned, round?.Chewed, round?.Unassessed];
    }
}
