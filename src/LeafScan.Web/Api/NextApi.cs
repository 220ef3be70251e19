using LeafScan.Records;
using LeafScan.Trends.NextSteps;
using LeafScan.Trends.Sampling;
using LeafScan.Trends.Thresholds;
using LeafScan.Web.Documents;
using Microsoft.AspNetCore.Http.HttpResults;

namespace LeafScan.Web.Api;

/// <summary>/api/next: what to do next, from the same adviser as the command, so that page and command say the same.</summary>
internal static class NextApi
{
    public static void Map(IEndpointRouteBuilder api) => api.MapGet("/next", Next).WithTags("Overview")
        .WithSummary("What to do next with each plant, when to look again, and what to mind; those with something to do first.")
        .WithDescription("plant gives one plant only; date is the day for which advice is wanted, today when left out.").ProducesProblem(404);

    private static Results<Ok<List<NextPlant>>, ProblemHttpResult> Next(
        RecordStore store, KeptLeafStates kept, KeptEntries entries, ServerOptions options, string? place = null, long? plant = null, DateOnly? date = null)
    {
        if (plant is { } id && store.FindPlant(id) is null)
        {
            return Problem.NotFound("plant");
        }

        IReadOnlyList<Plant> plants = plant is { } one ? [store.FindPlant(one)!] : store.Plants(place);
        PlantAdviser adviser = new(store, RecordThresholds.Load(store), kept, entries);
        Dictionary<long, TaylorLaw?> spreads = plants.Select(known => known.PlaceId).Distinct().ToDictionary(where => where, adviser.SpreadAt);
        return TypedResults.Ok(adviser.Advise(plants, date ?? Today.At(options.Clock)).Select(advice => Of(advice, spreads[advice.Plant.PlaceId])).ToList());
    }

    private static NextPlant Of(PlantAdvice advice, TaylorLaw? spread) => new()
    {
        PlantId = advice.Plant.Id,
        Code = advice.Plant.Code,
        Place = advice.Plant.PlaceName,
        Client = advice.Client,
        Name = advice.Plant.Name,
        Species = advice.Plant.Species,
        Block = advice.Plant.Facts.Block,
        Damage = DocumentMaker.Round(advice.Situation.Damage),
        LastWalk = advice.Situation.LastLeavesOn,
        LookAgainOn = advice.Advice.RecheckOn,
        Rest = advice.Advice.IsRest,
        Steps = Lines(advice.Advice.Lines),
        Cautions = Lines(advice.Advice.Cautions),
        Taps = advice.Advice.IsRest ? null : Of(TapPlan.Of(advice.Situation.Tap, spread)),
    };

    private static NextTaps Of(TapPlan plan) => new(plan.Branches, plan.Because, [.. plan.Stops.Select(stop => new NextStop(stop.Taps, stop.Mites))], plan.StopsBecause);

    private static List<NextStep> Lines(IEnumerable<AdviceLine> lines) => [.. lines.Select(line => new NextStep(line.Words, line.Reason, line.Source))];
}
