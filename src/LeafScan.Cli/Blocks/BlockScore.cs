using LeafScan.Photos;
using LeafScan.Records;
using LeafScan.Trends;
using LeafScan.Trends.Blocks;
using LeafScan.Walks;
using LeafScan.Walks.Blocks;

namespace LeafScan.Cli.Blocks;

/// <summary>A block as the record has it after a folder was scored: its plants, in rows where these are known.</summary>
/// <param name="Plants">The plants, by row and position, those without by code.</param>
/// <param name="Figures">The block together.</param>
/// <param name="RefusedByPlant">Files of each plant that were refused.</param>
/// <param name="PhotosWithoutPlant">Photos of the folder on record that belong to no plant.</param>
internal sealed record BlockScore(
    IReadOnlyList<BlockPlant> Plants, BlockFigures Figures, IReadOnlyDictionary<string, int> RefusedByPlant, int PhotosWithoutPlant)
{
    /// <summary>
    /// Reads the block from the record: of the folder's photos alone, in an order that does not hang on the order in which
    /// they were measured.
    /// </summary>
    /// <param name="store">The record.</param>
    /// <param name="plan">The folder.</param>
    /// <param name="refused">Labels of the files that were refused.</param>
    public static BlockScore Of(RecordStore store, WalkPlan plan, IEnumerable<string> refused)
    {
        List<PhotoOnRecord> photos = [.. plan.Files.Select(file => file.Sha256).OfType<string>().Distinct(StringComparer.Ordinal).Select(store.FindPhoto).OfType<PhotoOnRecord>().Where(photo => !photo.IsInBin)];
        Dictionary<string, string?> plantOfFile = plan.Files.ToDictionary(file => file.Item.Label, file => file.Plant.Code, StringComparer.Ordinal);
        Dictionary<string, int> bad = refused.Select(label => plantOfFile.GetValueOrDefault(label)).OfType<string>()
            .GroupBy(code => code, StringComparer.OrdinalIgnoreCase).ToDictionary(same => same.Key, same => same.Count(), StringComparer.OrdinalIgnoreCase);

        HashSet<long> ids = [.. photos.Select(photo => photo.Id)];
        Dictionary<long, string> codes = photos.Where(photo => photo.PlantId is not null)
            .GroupBy(photo => photo.PlantId!.Value).ToDictionary(same => same.Key, same => same.First().PlantCode!);
        ILookup<long, LeafOnRecord> leaves = photos.Count == 0
            ? Array.Empty<LeafOnRecord>().ToLookup(leaf => leaf.PlantId)
            : store.LeavesOfPlants(codes.Keys, photos.Min(photo => photo.WalkedOn), photos.Max(photo => photo.WalkedOn))
                .Where(leaf => ids.Contains(leaf.PhotoId)).ToLookup(leaf => leaf.PlantId);
        TrendOptions options = new();
        List<BlockPlant> plants = [.. codes.Select(plant => One(plant.Value, leaves[plant.Key], options))];
        plants.AddRange(bad.Keys.Where(code => !codes.Values.Contains(code, StringComparer.OrdinalIgnoreCase)).Select(code => One(code, [], options)));
        plants = [.. plants.OrderBy(plant => plant.Row ?? int.MaxValue).ThenBy(plant => plant.Position ?? int.MaxValue).ThenBy(plant => plant.Code, NaturalOrder.Comparer)];
        return new BlockScore(plants, BlockFigures.Of(plants, options, SteadyChance.New()), bad, photos.Count(photo => photo.PlantId is null));
    }

    private static BlockPlant One(string code, IEnumerable<LeafOnRecord> leaves, TrendOptions options)
    {
        RowPosition? stands = RowPosition.OfText(code);
        IEnumerable<LeafOnRecord> ordered = leaves.OrderBy(leaf => leaf.FileName, NaturalOrder.Comparer).ThenBy(leaf => leaf.Damage).ThenBy(leaf => leaf.AreaPx);
        return new BlockPlant(code, stands?.Row, stands?.Position, LeafFigures.Of(ordered, options, SteadyChance.New()));
    }
}
