using System.Globalization;
using LeafScan.Photos;
using LeafScan.Records;
using LeafScan.Web.Documents;
using LeafScan.Web.Progress;
using LeafScan.Web.Uploads;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.AspNetCore.Server.Kestrel.Core.Features;

namespace LeafScan.Web.Api;

/// <summary>
/// /api/walks/{id}/photos/{sha256}: one photo a request, named by its fingerprint, so that sending it again changes nothing and a page that
/// was cut off only asks which ones are here.
/// </summary>
internal static class UploadsApi
{
    // Greenhouse Wi-Fi stalls; what comes slower than this for so long has gone away.
    private static readonly MinDataRate SlowestSender = new(100, TimeSpan.FromSeconds(60));

    private static readonly PhotoLimits Limits = new();

    public static void Map(IEndpointRouteBuilder api)
    {
        RouteGroupBuilder photos = api.MapGroup("/walks/{id:long}/photos/{sha256}").WithTags("Sending photos");
        photos.MapPut("", ReceiveAsync).WithSummary("Sends one photo as the raw body.").WithDescription(
            "sha256 is the SHA-256 of the body as 64 hex digits. name and folder are labels from the device; plantId says which plant it shows, else folder and name tell it. "
            + "202: received, on the disk, waits to be measured. 200: nothing new.")
            .Accepts<Stream>("*/*")
            .ProducesProblem(404).ProducesProblem(413).ProducesProblem(422).ProducesProblem(507);
        photos.MapMethods("", [HttpMethods.Head], Has).WithSummary("Whether this photo was received already.").Produces(200).Produces(404);
    }

    private static Results<Ok, NotFound> Has(RecordStore store, long id, string sha256)
        => IsPrint(sha256) && (store.FindUpload(id, sha256) is not null || store.FindPhoto(sha256) is not null) ? TypedResults.Ok() : TypedResults.NotFound();

    private static async Task<Results<Ok<UploadDocument>, Accepted<UploadDocument>, ProblemHttpResult>> ReceiveAsync(
        HttpContext context, RecordStore store, PhotoFiles files, ProgressBell bell, long id, string sha256, string? name = null, string? folder = null, long? plantId = null)
    {
        AllowPhoto(context);
        if (!IsPrint(sha256))
        {
            return Problem.WrongValue("The address names no SHA-256.", "Give 64 digits and small letters from a to f.");
        }

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

        if (context.Request.ContentLength > Limits.LargestFileBytes)
        {
            return TooLarge();
        }

        string part = files.NewPart();
        try
        {
            (ReceiptResult result, string ending) = await PhotoReceiver.ReceiveAsync(context.Request.Body, sha256, part, Limits.LargestFileBytes, context.RequestAborted).ConfigureAwait(false);
            if (result != ReceiptResult.Whole)
            {
                return Told(result);
            }

            string storedAs = PhotoFiles.NameFor(walk.WalkedOn, sha256, ending);
            string path = files.PathOf(storedAs);
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.Move(part, path, overwrite: true);
            UploadOnRecord upload = store.AddUpload(new NewUpload
            {
                WalkId = id,
                Sha256 = sha256,
                FileName = PhotoLabel.Name(name),
                Folder = PhotoLabel.Folder(folder),
                PlantId = plantId,
                StoredAs = storedAs,
            });
            bell.Ring();
            return TypedResults.Accepted(string.Create(CultureInfo.InvariantCulture, $"/api/walks/{id}"), Of(upload));
        }
        catch (Exception trouble) when (trouble is not Microsoft.AspNetCore.Http.BadHttpRequestException && trouble is IOException or UnauthorizedAccessException && !context.RequestAborted.IsCancellationRequested)
        {
            return Problem.Of(
                StatusCodes.Status507InsufficientStorage, "The photo could not be written to the disk.", "It was not taken in; what came before is safe. Free some space on the machine that runs leafscan serve, then send it again.");
        }
        finally
        {
            PhotoFiles.TryDelete(part);
        }
    }

    private static void AllowPhoto(HttpContext context)
    {
        // Counted by ourselves, so that the answer is a sentence and not a broken connection.
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } size)
        {
            size.MaxRequestBodySize = null;
        }

        if (context.Features.Get<IHttpMinRequestBodyDataRateFeature>() is { } rate)
        {
            rate.MinDataRate = SlowestSender;
        }
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

    private static ProblemHttpResult Told(ReceiptResult result) => result switch
    {
        ReceiptResult.TooLarge => TooLarge(),
        ReceiptResult.Empty => Problem.WrongValue("The photo is empty.", "Send it again."),
        _ => Problem.WrongValue("The bytes that arrived are not those that were sent.", "Send the photo again; the connection may have dropped."),
    };

    private static ProblemHttpResult TooLarge() => Problem.Of(
        StatusCodes.Status413PayloadTooLarge,
        string.Create(CultureInfo.InvariantCulture, $"The photo is larger than {Limits.LargestFileBytes / 1_000_000} MB."),
        "It was not taken in; other photos are not touched by it. Send the photo as the phone took it, without enlarging it.");

    private static bool IsPrint(string text) => text.Length == 64 && text.All(letter => letter is >= '0' and <= '9' or >= 'a' and <= 'f');
}
