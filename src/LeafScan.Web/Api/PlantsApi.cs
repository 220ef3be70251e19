using LeafScan.Notes.Client;
using LeafScan.Notes.Paper;
using LeafScan.Records;
using LeafScan.Trends;
using LeafScan.Trends.Verdicts;
using LeafScan.Web.Documents;
using Microsoft.AspNetCore.Http.HttpResults;

namespace LeafScan.Web.Api;

/// <summary>/api/plants: the plants, one plant with its series, and what a person tells of it.</summary>
internal static class PlantsApi
{
    private const string ByPage = "changed on the page";

    private const double ChartWidthMm = 170, ChartHeightMm = 60;

    public static void Map(IEndpointRouteBuilder api)
    {
        RouteGroupBuilder plants = api.MapGroup("/plants").WithTags("Plants");
        plants.MapGet("", List).WithSummary("Every plant with its last walk.");
        plants.MapGet("/{id:long}", One).WithSummary("One plant: facts, verdict, series, care, taps, photos.").WithDescription("kind takes readings of leaf, twig or plant only for verdict, trend and series.").ProducesProblem(404);
        plants.MapPost("", Begin).WithSummary("Begins a plant, or finds the one of this code.").ProducesProblem(422);
        plants.MapPut("/{id:long}", Change).WithSummary("Changes what is known of a plant; can be undone.").ProducesProblem(404).ProducesProblem(422);
        plants.MapGet("/{id:long}/chart.svg", Chart).WithSummary("The series as a drawing.").Produces(200, contentType: "image/svg+xml").ProducesProblem(404);
    }

    /// <summary>The plants with their last walk.</summary>
    public static List<PlantLine> List(RecordStore store, KeptVerdicts verdicts, string? place = null, string? block = null)
    {
        ILookup<long, LeafDamage> last = store.DamageOfLastWalks(place).ToLookup(leaf => leaf.PlantId);
        HashSet<long>? inBlock = block is null ? null : [.. store.Plants(place, block).Select(plant => plant.Id)];
        List<PlantOverview> overviews = [.. store.PlantOverviews(place).Where(overview => inBlock?.Contains(overview.Plant.Id) ?? true)];
        List<PlantLastWalk?> points = [.. overviews.AsParallel().AsOrdered().Select(overview => PlantLastWalk.Of([.. last[overview.Plant.Id]]))];
        IReadOnlyDictionary<long, Verdict> judged = verdicts.Of(overviews.Select(overview => overview.Plant.Id));
        return [.. overviews.Select((overview, i) => DocumentMaker.Line(overview, points[i], judged[overview.Plant.Id]))];
    }

    private static Results<Ok<PlantDocument>, ProblemHttpResult> One(RecordStore store, long id, string? kind = null)
        => store.FindPlant(id) is { } plant ? TypedResults.Ok(DocumentMaker.Whole(store, plant, KindsOnRecord.Known(kind))) : Problem.NotFound("plant");

    private static Results<Created<PlantDocument>, Ok<PlantDocument>, ProblemHttpResult> Begin(RecordStore store, PlantWrite wish)
    {
        if (string.IsNullOrWhiteSpace(wish.Code) || string.IsNullOrWhiteSpace(wish.Place))
        {
            return Problem.WrongValue("A plant needs a code and a place.", "Give both.");
        }

        bool isNew = store.FindPlants(wish.Code, wish.Place).Count == 0;
        Plant plant = store.FindOrAddPlant(store.FindOrAddPlace(wish.Place).Id, wish.Code);
        if (Wrong(wish) is { } problem)
        {
            return problem;
        }

        plant = store.EditPlant(plant.Id, old => Changed(old, wish), ByPage);
        PlantDocument document = DocumentMaker.Whole(store, plant);
        return isNew ? TypedResults.Created(FormattableString.Invariant($"/api/plants/{plant.Id}"), document) : TypedResults.Ok(document);
    }

    private static Results<Ok<PlantDocument>, ProblemHttpResult> Change(RecordStore store, long id, PlantWrite wish)
    {
        if (store.FindPlant(id) is null)
        {
            return Problem.NotFound("plant");
        }

        if (Wrong(wish) is { } problem)
        {
            return problem;
        }

        return TypedResults.Ok(DocumentMaker.Whole(store, store.EditPlant(id, old => Changed(old, wish), ByPage)));
    }

    // The same drawing as on the client's note. The page draws its own, which bends to a phone and to dark colours.
    private static Results<Utf8ContentHttpResult, ProblemHttpResult> Chart(RecordStore store, TimeProvider clock, long id)
    {
        if (store.FindPlant(id) is not { } plant)
        {
            return Problem.NotFound("plant");
        }

        NoteContent note = new NoteComposer(store, new NoteRequest { Today = Today.At(clock) }).OfPlant(plant);
        if (NoteChart.Page(note, ChartWidthMm, ChartHeightMm) is not { } drawing)
        {
            return Problem.Of(404, "Nothing of this plant is measured yet.", "Add photos of it; then there is a series to draw.");
        }

        using MemoryStream svg = new();
        SvgPaper.Write(svg, drawing with { Title = $"{plant.Code}: {drawing.Title}" });
        return TypedResults.Text(svg.ToArray(), "image/svg+xml");
    }

    private static ProblemHttpResult? Wrong(PlantWrite wish) => wish.Calendar is null or "" or "warm" or "cool" or "boxwood"
        ? null : Problem.WrongValue("The mite calendar is warm, cool or boxwood.", "Choose one of them, or leave it empty to tell it from the species.");

    private static Plant Changed(Plant old, PlantWrite wish) => old with
    {
        Name = wish.Name ?? old.Name,
        Species = wish.Species ?? old.Species,
        Facts = old.Facts with
        {
            Cultivar = wish.Cultivar ?? old.Facts.Cultivar,
            Block = wish.Block ?? old.Facts.Block,
            Row = wish.Row ?? old.Facts.Row,
            Position = wish.Position ?? old.Facts.Position,
            Season = wish.Calendar switch
            {
                null => old.Facts.Season,
                "warm" => MiteSeason.Warm,
                "cool" => MiteSeason.Cool,
                "boxwood" => MiteSeason.Boxwood,
                _ => null,
            },
            Light = wish.Light ?? old.Facts.Light,
            DateIn = wish.DateIn ?? old.Facts.DateIn,
            DamageAtDelivery = wish.DamageAtDelivery ?? old.Facts.DamageAtDelivery,
            IsCheck = wish.IsCheck ?? old.Facts.IsCheck,
        },
    };
}
