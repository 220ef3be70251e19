using LeafScan.Leaves.Views;
using LeafScan.Records;
using LeafScan.Walks.Foliage;
using LeafScan.Web.Documents;
using LeafScan.Web.Drawing;
using LeafScan.Web.Measuring;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Net.Http.Headers;

namespace LeafScan.Web.Api;

/// <summary>What only plants of twigs and whole-plant photos have: a photo of the plant in health, and two views of it lined up.</summary>
internal static class FoliageApi
{
    private const string ByPage = "changed on the page";

    public static void Map(IEndpointRouteBuilder api)
    {
        RouteGroupBuilder plants = api.MapGroup("/plants/{id:long}");
        plants.MapPut("/healthy", TakeAsync).WithTags("Plants").WithSummary("Takes one of the plant's own photos for its health: twigs and whole plants are measured against its colour from now on; can be undone.")
            .WithDescription("The photo is measured for it. Photos that are on record already keep their numbers.").ProducesProblem(404).ProducesProblem(422);
        plants.MapDelete("/healthy", Drop).WithTags("Plants").WithSummary("Takes the healthy photo away again; can be undone.").ProducesProblem(404);
        plants.MapGet("/views", ViewsAsync).WithTags("Pictures").WithSummary("Whole-plant photos of two days lined up: what has changed in each sixth, or why they cannot be lined up.")
            .WithDescription("from and to are days such as 2026-07-20; from lies before to. Both photos are measured for it, once.").ProducesProblem(404).ProducesProblem(422);
        plants.MapGet("/views/picture", PictureAsync).WithTags("Pictures").WithSummary("Both photos lined up and where it changed, drawn.").Produces(200, contentType: "image/jpeg").ProducesProblem(404).ProducesProblem(422);
    }

    private static async Task<Results<Ok<HealthyDocument>, ProblemHttpResult>> TakeAsync(RecordStore store, MeasureGate gate, long id, HealthyWrite wish, CancellationToken cancel)
    {
        if (store.FindPlant(id) is null)
        {
            return Problem.NotFound("plant");
        }

        if (store.FindPhoto(wish.PhotoId) is not { IsInBin: false } photo || photo.PlantId != id)
        {
            return Problem.Of(StatusCodes.Status404NotFound, "There is no such photo of this plant on record.", "Nothing was changed. Choose one of its own photos.");
        }

        if (photo.Kind is not ("twig" or "plant"))
        {
            return Problem.Of(
                StatusCodes.Status422UnprocessableEntity, $"The healthy photo {photo.FileName} is of no use: a healthy photo is of a twig or a whole plant, and this one is of a {photo.Kind}.",
                "Nothing was changed. Leaves are judged by their own sound parts; choose a photo of a twig or of the whole plant.");
        }

        if (!File.Exists(photo.PathSeen))
        {
            return PhotosApi.Gone(photo);
        }

        HealthyFromPhoto read = await gate.RunAsync(
            () => HealthyFromPhoto.Read(photo.PathSeen, Options.For(store.Folder) with { Kind = photo.Kind }, CancellationToken.None, photo.FileName, photo.Sha256), cancel).ConfigureAwait(false);
        if (read.Healthy is not { } healthy)
        {
            return Problem.Of(StatusCodes.Status422UnprocessableEntity, read.Useless!, $"Nothing was changed. {read.Refusal!.Advice}");
        }

        store.EditPlant(id, old => old with { Facts = old.Facts with { Healthy = healthy } }, ByPage);
        return TypedResults.Ok(new HealthyDocument(healthy.File, [.. read.Remarks, HealthyFromPhoto.OldNumbersStay]));
    }

    private static Results<Ok<HealthyDocument>, ProblemHttpResult> Drop(RecordStore store, long id)
    {
        if (store.FindPlant(id) is null)
        {
            return Problem.NotFound("plant");
        }

        store.EditPlant(id, old => old with { Facts = old.Facts with { Healthy = null } }, ByPage);
        return TypedResults.Ok(new HealthyDocument(null, [HealthyFromPhoto.OldNumbersStay]));
    }

    private static async Task<Results<Ok<ViewsDocument>, ProblemHttpResult>> ViewsAsync(RecordStore store, ViewsDrawer drawer, long id, DateOnly from, DateOnly to, CancellationToken cancel)
        => store.FindPlant(id) is not { } plant ? Problem.NotFound("plant")
            : from >= to ? OneDay
            : TypedResults.Ok(Of(await drawer.LineUpAsync(plant, from, to, cancel).ConfigureAwait(false)));

    private static async Task<Results<PhysicalFileHttpResult, ProblemHttpResult>> PictureAsync(
        RecordStore store, ViewsDrawer drawer, HttpContext context, long id, DateOnly from, DateOnly to)
    {
        if (store.FindPlant(id) is not { } plant)
        {
            return Problem.NotFound("plant");
        }

        if (from >= to)
        {
            return OneDay;
        }

        LinedUpViews views = await drawer.LineUpAsync(plant, from, to, context.RequestAborted).ConfigureAwait(false);
        if (views.Picture is not { } picture)
        {
            return Problem.Of(StatusCodes.Status404NotFound, views.Reason!, $"Nothing was drawn; what is on record is safe. {views.Advice}");
        }

        context.Response.Headers.CacheControl = "private, no-cache";
        return TypedResults.PhysicalFile(picture, "image/jpeg", entityTag: new EntityTagHeaderValue($"\"{Path.GetFileNameWithoutExtension(picture)}\""));
    }

    private static ProblemHttpResult OneDay => Problem.WrongValue("Two days are needed, the earlier one first.", "Give them as 2026-06-18 and 2026-07-20.");

    private static ViewsDocument Of(LinedUpViews views) => new()
    {
        LinedUp = views.Change is not null,
        Reason = views.Reason,
        Advice = views.Advice,
        Earlier = views.EarlierFile,
        EarlierDay = views.EarlierDay,
        Later = views.LaterFile,
        LaterDay = views.LaterDay,
        AgreeingPlaces = views.Change?.AgreeingPlaces,
        Discoloured = DocumentMaker.Round(views.Change?.Discoloured),
        Thinning = DocumentMaker.Round(views.Change?.Thinning),
        Greenness = DocumentMaker.Round(views.Change?.Greenness),
        Sectors = views.Change is { } change
            ? [.. change.Sectors.Select(sector => new ViewSectorDocument(
                sector.Side, sector.Height, DocumentMaker.Round(sector.Discoloured), DocumentMaker.Round(sector.Thinning)!.Value, DocumentMaker.Round(sector.Greenness), sector.Word))]
            : null,
        SameWithin = PlantChange.Noise,
    };
}
