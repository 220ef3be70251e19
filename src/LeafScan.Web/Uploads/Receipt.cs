using System.Globalization;
using LeafScan.Web.Api;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.AspNetCore.Server.Kestrel.Core.Features;
using Microsoft.Extensions.DependencyInjection;

namespace LeafScan.Web.Uploads;

/// <summary>One photo out of a request onto the disk: where it lies, or why not.</summary>
/// <param name="StoredAs">File, relative to the data folder; null when it was not taken in.</param>
/// <param name="Problem">Why not; null when it was.</param>
internal sealed record Receipt(string? StoredAs, ProblemHttpResult? Problem)
{
    // Greenhouse Wi-Fi stalls; what comes slower than this for so long has gone away.
    private static readonly MinDataRate SlowestSender = new(100, TimeSpan.FromSeconds(60));

    /// <summary>Takes the body of a request. A file that is there under the name already is replaced by the same bytes.</summary>
    /// <param name="context">The request.</param>
    /// <param name="files">Where photos lie.</param>
    /// <param name="sha256">Fingerprint that the body must have.</param>
    /// <param name="nameFor">Gives the name for an ending.</param>
    public static async Task<Receipt> TakeAsync(HttpContext context, PhotoFiles files, string sha256, Func<string, string> nameFor)
    {
        Allow(context);
        long mostBytes = context.RequestServices.GetRequiredService<ServerOptions>().Photos.LargestFileBytes;
        if (!UploadsApi.IsPrint(sha256))
        {
            return new Receipt(null, Api.Problem.WrongValue("The address names no SHA-256.", "Give 64 digits and small letters from a to f."));
        }

        if (context.Request.ContentLength > mostBytes)
        {
            return new Receipt(null, TooLarge(mostBytes));
        }

        string part = files.NewPart();
        try
        {
            (ReceiptResult result, string ending) = await PhotoReceiver.ReceiveAsync(context.Request.Body, sha256, part, mostBytes, context.RequestAborted).ConfigureAwait(false);
            if (result != ReceiptResult.Whole)
            {
                return new Receipt(null, Told(result, mostBytes));
            }

            string storedAs = nameFor(ending);
            string path = files.PathOf(storedAs);
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.Move(part, path, overwrite: true);
            return new Receipt(storedAs, null);
        }
        catch (Exception trouble) when (trouble is not Microsoft.AspNetCore.Http.BadHttpRequestException && trouble is IOException or UnauthorizedAccessException && !context.RequestAborted.IsCancellationRequested)
        {
            return new Receipt(null, Api.Problem.Of(
                StatusCodes.Status507InsufficientStorage, "The photo could not be written to the disk.", "It was not taken in; what came before is safe. Free some space on the machine that runs leafscan serve, then send it again."));
        }
        finally
        {
            PhotoFiles.TryDelete(part);
        }
    }

    /// <summary>Counted by ourselves, so that the answer to too much is a sentence and not a broken connection.</summary>
    private static void Allow(HttpContext context)
    {
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } size)
        {
            size.MaxRequestBodySize = null;
        }

        if (context.Features.Get<IHttpMinRequestBodyDataRateFeature>() is { } rate)
        {
            rate.MinDataRate = SlowestSender;
        }
    }

    private static ProblemHttpResult Told(ReceiptResult result, long mostBytes) => result switch
    {
        ReceiptResult.TooLarge => TooLarge(mostBytes),
        ReceiptResult.Empty => Api.Problem.WrongValue("The photo is empty.", "Send it again."),
        _ => Api.Problem.WrongValue("The bytes that arrived are not those that were sent.", "Send the photo again; the connection may have dropped."),
    };

    private static ProblemHttpResult TooLarge(long mostBytes) => Api.Problem.Of(
        StatusCodes.Status413PayloadTooLarge,
        string.Create(CultureInfo.InvariantCulture, $"The photo is larger than {mostBytes / 1e6:0.#} MB."),
        "It was not taken in; other photos are not touched by it. Send the photo as the phone took it, without enlarging it.");
}
