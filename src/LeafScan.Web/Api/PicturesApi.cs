using LeafScan.Records;
using LeafScan.Web.Drawing;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Net.Http.Headers;

namespace LeafScan.Web.Api;

/// <summary>/api/photos/{id}/picture, /overlay, /thumb: always drawn anew from pixels, so that neither position nor any other hidden word of the file leaves with them.</summary>
internal static class PicturesApi
{
    private const int UsualEdge = 1600;
    private const int ThumbEdge = 320;

    public static void Map(IEndpointRouteBuilder api)
    {
        RouteGroupBuilder photos = api.MapGroup("/photos/{id:long}").WithTags("Pictures");
        photos.MapGet("/picture", (PictureDrawer drawer, RecordStore store, HttpContext context, long id, int edge = UsualEdge) => AnswerAsync(drawer, store, context, id, edge, false))
            .WithSummary("The upright photo; edge is the longest side in pixels.").WithDescription("Drawn at the next of 320, 800, 1600, 3200 and 8000 pixels, never larger than the photo is.")
            .Produces(200, contentType: "image/jpeg").ProducesProblem(404);
        photos.MapGet("/overlay", (PictureDrawer drawer, RecordStore store, HttpContext context, long id, int edge = UsualEdge) => AnswerAsync(drawer, store, context, id, edge, true))
            .WithSummary("The same with what was found drawn over it; same size as the picture.").Produces(200, contentType: "image/jpeg").ProducesProblem(404);
        photos.MapGet("/thumb", (PictureDrawer drawer, RecordStore store, HttpContext context, long id) => AnswerAsync(drawer, store, context, id, ThumbEdge, false))
            .WithSummary("A small picture for lists.").Produces(200, contentType: "image/jpeg").ProducesProblem(404);
    }

    private static async Task<Results<PhysicalFileHttpResult, ProblemHttpResult>> AnswerAsync(PictureDrawer drawer, RecordStore store, HttpContext context, long id, int edge, bool overlay)
    {
        if (store.FindPhoto(id) is not { } photo)
        {
            return Problem.NotFound("photo");
        }

        Drawn drawn = await drawer.DrawAsync(photo, edge, overlay, context.RequestAborted).ConfigureAwait(false);
        switch (drawn.Why)
        {
            case NotDrawn.No:
                // Kept by the browser, but asked for again: an overlay changes with a correction.
                context.Response.Headers.CacheControl = "private, no-cache";
                return TypedResults.PhysicalFile(drawn.Path!, "image/jpeg", entityTag: new EntityTagHeaderValue($"\"{Path.GetFileNameWithoutExtension(drawn.Path)}\""));
            case NotDrawn.NotAgain:
                return Problem.Of(
                    StatusCodes.Status404NotFound, "The marks of this photo cannot be drawn again: what was measured on it is not found on it any more.", "Its numbers are safe on record. Draw the outline of a leaf to have it measured again.");
            default:
                return PhotosApi.Gone(photo);
        }
    }
}
