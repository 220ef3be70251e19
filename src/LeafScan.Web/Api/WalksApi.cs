using LeafScan.Records;
using LeafScan.Web.Documents;
using Microsoft.AspNetCore.Http.HttpResults;

namespace LeafScan.Web.Api;

/// <summary>/api/walks: the walks, and one walk with its photos.</summary>
internal static class WalksApi
{
    public static void Map(IEndpointRouteBuilder api)
    {
        RouteGroupBuilder walks = api.MapGroup("/walks").WithTags("Walks");
        walks.MapGet("", List).WithSummary("Every walk, newest first.");
        walks.MapGet("/{id:long}", One).WithSummary("One walk: photos, refused files, what waits.").ProducesProblem(404);
        walks.MapPost("", Begin).WithSummary("Finds the walk of a place and day, or begins it.").ProducesProblem(422);
    }

    private static List<WalkLine> List(RecordStore store)
        => [.. store.WalkList().Select(walk => new WalkLine(walk.Walk.Id, walk.Walk.WalkedOn, walk.PlaceName, walk.Photos, walk.Refused, walk.Waiting))];

    private static Results<Ok<WalkDocument>, ProblemHttpResult> One(RecordStore store, long id)
    {
        if (store.FindWalk(id) is not { } walk)
        {
            return Problem.NotFound("walk");
        }

        // The number first: what happens while the rest is read is then told twice rather than not at all.
        long last = store.LastUploadEvent();
        return TypedResults.Ok(new WalkDocument
        {
            Id = walk.Id,
            Date = walk.WalkedOn,
            Place = store.FindPlace(walk.PlaceId)!.Name,
            Waiting = [.. store.WaitingUploads(id).Select(upload => new WaitingDocument(upload.Id, upload.Upload.Sha256, upload.Upload.FileName))],
            Photos = DocumentMaker.Lines(store.Photos(id), store.PhotoFigures(id, null)),
            Refused = [.. store.RefusedFiles(id).Select(file => new RefusedDocument(file.FileName, file.Reason, file.Advice))],
            MovedByTag = [.. store.TagMoves(id).Select(move => new TagMoveDocument(move.ChangeId, move.PhotoId, move.FileName, move.Before, move.After, move.Because, move.MovedAt, move.IsUndone))],
            LastEvent = last,
        });
    }

    private static Results<Ok<WalkBegun>, ProblemHttpResult> Begin(RecordStore store, ServerOptions options, WalkWish wish)
    {
        DateOnly today = Today.At(options.Clock);
        DateOnly day = wish.Date ?? today;
        if (string.IsNullOrWhiteSpace(wish.Place))
        {
            return Problem.WrongValue("A walk needs a place.", "Name the garden or nursery.");
        }

        if (day < RecordDays.Earliest || day > today.AddDays(1))
        {
            return Problem.WrongValue("The day of the walk lies in the future or long ago.", "Give a day between 2000 and today.");
        }

        Place place = store.FindOrAddPlace(wish.Place);
        return TypedResults.Ok(new WalkBegun(store.FindOrAddWalk(place.Id, day).Id, day, place.Name));
    }
}
