using LeafScan.Records;
using LeafScan.Trends;
using LeafScan.Trends.Blocks;

namespace LeafScan.Notes.Exports;

/// <summary>
/// A block as the record has it (schema leafscan.block/1): a row for each of its plants with its last walk on or before a day, and
/// the block together. A plant without a walk has a row without figures.
/// </summary>
public static class BlockTable
{
    private static readonly string[] Columns =
    [
        "place", "block", "row", "position", "plant", "name", "species", "date", "leaves", "leavesLeftOut", "photos", "damage", "damageLow", "damageHigh",
        .. FigureColumns.Shares, "affectedLeaves", "affected", .. FigureColumns.Foliage,
    ];

    /// <summary>Makes the table.</summary>
    /// <param name="store">The record.</param>
    /// <param name="plants">The block's plants, in the order of the rows.</param>
    /// <param name="day">Walks after this day are passed over.</param>
    public static ExportTable Of(RecordStore store, IReadOnlyList<Plant> plants, DateOnly day)
    {
        TrendOptions options = new();
        ILookup<long, LeafOnRecord> leaves = store.LeavesOfPlants(plants.Select(plant => plant.Id), null, day).ToLookup(leaf => leaf.PlantId);
        List<(Plant Plant, DateOnly? Walk, LeafFigures Figures)> rows = [.. plants.Select(plant => Last(plant, leaves[plant.Id], options))];
        BlockFigures all = BlockFigures.Of([.. rows.Select(row => new BlockPlant(row.Plant.Code, null, null, row.Figures))], options, SteadyChance.New());
        ExportTable table = new("leafscan.block/1", "plants", Columns)
        {
            About = new Dictionary<string, object?>
            {
                ["upTo"] = day,
                ["plantCount"] = all.PlantCount,
                ["plantsLeftOut"] = all.PlantCountLeftOut,
                ["leafCount"] = all.LeafCount,
                ["affectedPlants"] = all.AffectedCount,
                ["incidence"] = ExportTable.Round(all.Incidence),
                ["incidenceLow"] = ExportTable.Round(all.IncidenceInterval?.Low),
                ["incidenceHigh"] = ExportTable.Round(all.IncidenceInterval?.High),
                ["damage"] = ExportTable.Round(all.Damage),
                ["damageLow"] = ExportTable.Round(all.DamageInterval?.Low),
                ["damageHigh"] = ExportTable.Round(all.DamageInterval?.High),
            },
        };
        foreach ((Plant plant, DateOnly? walk, LeafFigures figures) in rows)
        {
            table.Add(
            [
                plant.PlaceName, plant.Facts.Block, plant.Facts.Row, plant.Facts.Position, plant.Code, plant.Name, plant.Species, walk,
                .. FigureColumns.Head(figures), .. FigureColumns.SharesOf(figures.Shares), figures.AffectedCount, figures.LeafCount == 0 ? null : figures.AffectedCount > 0,
                .. FigureColumns.FoliageOf(figures),
            ]);
        }

        return table;
    }

    private static (Plant Plant, DateOnly? Walk, LeafFigures Figures) Last(Plant plant, IEnumerable<LeafOnRecord> leaves, TrendOptions options) =>
        SteadyChance.SeriesOf(leaves) is [.., var last] ? (plant, last.WalkedOn, last.Leaves) : (plant, null, LeafFigures.Of([], options, SteadyChance.New()));
}
