using System.Globalization;
using LeafScan.Records;
using LeafScan.Web.Documents;
using LeafScan.Web.Progress;
using LeafScan.Web.Uploads;
using Microsoft.AspNetCore.Http.HttpResults;

namespace LeafScan.Web.Api;

/// <summary>
/// /api/walks/{id}/photos/{sha256}: one photo a request, named by its fingerprint, so that sending it again changes nothing and a page that
/// was cut off only asks which ones are here.
/// </summary>
internal static class UploadsApi
{
    public static void Map(IEndpointRouteBuilder api)
    {
        RouteGroupBuilder photos = api.MapGroup("/walks/{id:long}/photos/{sha256}").WithTags("Sending photos");
        photos.MapPut("", ReceiveAsync).WithSummary("Sends one photo as the raw body.").WithDescription(
            "sha256 is the SHA-256 of the body as 64 hex digits. name and folder are labels from the device; plantId says which plant it shows, else folder and name tell it. "
            + "202: received, on the disk, waits to be measured. 200: nothing new.")
            .Accepts<Stream>("*/*").ProducesProblem(404).ProducesProblem(413).ProducesProblem(422).ProducesProblem(507);
        photos.MapMethods("", [HttpMethods.Head], Has).WithSummary("Whether this photo was received already.").Produces(200).Produces(404);
    }

    /// <summary>Whether a text is a SHA-256 as addresses write it.</summary>
    public static bool IsPrint(string text) => text.Length == 64 && text.All(letter => letter is >= '0' and <= '9' or >= 'a' and <= 'f');

    private static Results<Ok, NotFound> Has(RecordStore store, long id, string sha256)
        => IsPrint(sha256) && (store.FindUpload(id, sha256) is not null || store.FindPhoto(sha256) is not null) ? TypedResults.Ok() : TypedResults.NotFound();

    private static async Task<Results<Ok<UploadDocument>, Accepted<UploadDocument>, ProblemHttpResult>> ReceiveAsync(
        HttpContext context, RecordStore store, PhotoFiles files, ProgressBell bell, long id, string sha256, string? name = null, string? folder = null, long? plantId = null)
    {
        if (store.FindWalk(id) is not { } walk)
        {
            return Problem.NotFound("walk");
        }

        if (Known(store, id, sha256) is { } known)
        {
            return TypedResults.Ok(known);
        }

        if (plantId is { } plant && store.FindPlant(plant)?.PlaceId != walk.PlaceId)
        {
            return Problem.WrongValue("There is no such plant in the place of this walk.", "Choose the plant again.");
        }

        Receipt receipt = await Receipt.TakeAsync(context, files, sha256, ending => PhotoFiles.NameFor(walk.WalkedOn, sha256, ending)).ConfigureAwait(false);
        if (receipt.Problem is { } problem)
        {
            return problem;
        }

        UploadOnRecord upload = store.AddUpload(new NewUpload
        {
            WalkId = id,
            Sha256 = sha256,
            FileName = PhotoLabel.Name(name),
            Folder = PhotoLabel.Folder(folder),
            PlantId = plantId,
            StoredAs = receipt.StoredAs!,
        });
        bell.Ring();
        return TypedResults.Accepted(string.Create(CultureInfo.InvariantCulture, $"/api/walks/{id}"), Of(upload));
    }

    private static UploadDocument? Known(RecordStore store, long walkId, string sha256)
        => store.FindPhoto(sha256) is { } photo ? new UploadDocument
        {
            State = "alreadyHere",
            UploadId = null,
            SameAs = photo.FileName,
            PhotoId = photo.Id,
            Date = photo.WalkedOn,
            InBin = photo.IsInBin,
            Reason = null,
            Advice = null,
        }
        : (store.FindUpload(walkId, sha256) ?? store.FindWaitingUpload(sha256)) is { } upload ? Of(upload) : null;

    private static UploadDocument Of(UploadOnRecord upload) => new()
    {
        State = upload.State == UploadState.Measured ? "alreadyHere" : DocumentMaker.Lower(upload.State),
        UploadId = upload.Id,
        SameAs = null,
        PhotoId = upload.PhotoId,
        Date = null,
        InBin = false,
        Reason = upload.Reason,
        Advice = upload.Advice,
    };
}
