using LeafScan.Photos;
using LeafScan.Records;
using LeafScan.Trends;
using LeafScan.Trends.Verdicts;
using LeafScan.Web.Documents;
using Microsoft.AspNetCore.Http.HttpResults;

namespace LeafScan.Web.Api;

/// <summary>Many plants at once: month against month, and the blocks.</summary>
internal static class OverviewApi
{
    public static void Map(IEndpointRouteBuilder api)
    {
        api.MapGet("/compare", Compare).WithTags("Overview").WithSummary("Every plant with a leaf in one of two months, side by side.")
            .WithDescription("from and to are months such as 2026-07; from lies before to.").ProducesProblem(422);
        api.MapGet("/blocks", Blocks).WithTags("Overview").WithSummary("The blocks with their plants, worst first.");
    }

    private static Results<Ok<List<CompareLine>>, ProblemHttpResult> Compare(RecordStore store, string from, string to, string? place = null, string? block = null)
    {
        if (Month.Parse(from) is not { } first || Month.Parse(to) is not { } second || first.FirstDay >= second.FirstDay)
        {
            return Problem.WrongValue("Two months are needed, the earlier one first.", "Give them as 2026-06 and 2026-07.");
        }

        IReadOnlyList<Plant> plants = store.Plants(place, block);
        long[] ids = [.. plants.Select(plant => plant.Id)];

        // Two questions, so that the leaves of the months between are never read.
        ILookup<long, LeafOnRecord> leaves = store.LeavesOfPlants(ids, first.FirstDay, first.LastDay).Concat(store.LeavesOfPlants(ids, second.FirstDay, second.LastDay))
            .ToLookup(leaf => leaf.PlantId);
        return TypedResults.Ok(plants.Where(plant => leaves.Contains(plant.Id)).AsParallel().AsOrdered()
            .Select(plant => Of(plant, MonthComparison.Of(leaves[plant.Id], first, second, null, SteadyChance.New))).ToList());
    }

    private static List<BlockDocument> Blocks(RecordStore store, KeptVerdicts verdicts, string? place = null) =>
    [
        .. PlantsApi.List(store, verdicts, place).GroupBy(plant => (plant.Place, plant.Block))
            .OrderBy(group => group.Key.Place, NaturalOrder.Comparer).ThenBy(group => group.Key.Block ?? "\uffff", NaturalOrder.Comparer)
            .Select(group => new BlockDocument(
                group.Key.Block, group.Key.Place, Labels(group.Select(plant => plant.Row)), Labels(group.Select(plant => plant.Position)),
                [.. group.OrderByDescending(plant => plant.Damage ?? -1).Select(plant => new BlockPlant(
                    plant.Id, plant.Code, plant.Row, plant.Position, plant.Damage, plant.DamageLow, plant.DamageHigh, plant.Leaves, plant.LastWalk, plant.Verdict))])),
    ];

    private static List<string> Labels(IEnumerable<string?> labels)
        => [.. labels.OfType<string>().Distinct(StringComparer.OrdinalIgnoreCase).Order(NaturalOrder.Comparer)];

    private static CompareLine Of(Plant plant, MonthComparison months) => new()
    {
        PlantId = plant.Id,
        Code = plant.Code,
        Place = plant.PlaceName,
        Name = plant.Name,
        Block = plant.Facts.Block,
        From = DocumentMaker.Of(months.Earlier),
        To = DocumentMaker.Of(months.Later),
        Word = months.Word switch
        {
            ChangeWord.Better => "better",
            ChangeWord.Worse => "worse",
            ChangeWord.Same => "same",
            _ => "cannotTell",
        },
        Difference = DocumentMaker.Round(months.Difference),
        Low = DocumentMaker.Round(months.DifferenceInterval?.Low),
        High = DocumentMaker.Round(months.DifferenceInterval?.High),
        Because = months.Because,
        Caution = months.Caution,
    };
}
