using LeafScan.Frame;
using LeafScan.Photos;
using LeafScan.Photos.Pictures;
using LeafScan.Records;
using LeafScan.Taps;
using LeafScan.Taps.Overlay;
using LeafScan.Web.Documents;
using LeafScan.Web.Measuring;
using LeafScan.Web.Uploads;
using Microsoft.AspNetCore.Http.HttpResults;
using OpenCvSharp;

namespace LeafScan.Web.Api;

/// <summary>/api/taps: two photos of one white sheet in, what crawled out. Keeps no count; that is for the person to say.</summary>
internal static class TapPhotosApi
{
    private static readonly string[] Endings = [".jpg", ".png", ".heic", ".bin"];

    public static void Map(IEndpointRouteBuilder api)
    {
        RouteGroupBuilder taps = api.MapGroup("/taps").WithTags("Taps");
        taps.MapPut("/photos/{sha256}", ReceiveAsync).WithSummary("Sends one photo of a tap sheet as the raw body.").Accepts<Stream>("*/*").ProducesProblem(413).ProducesProblem(422).ProducesProblem(507);
        taps.MapPost("/read", ReadAsync).WithSummary("Counts what crawls on two photos that were sent before.").ProducesProblem(404).ProducesProblem(422);
        taps.MapGet("/overlay/{first}/{second}", Overlay).WithSummary("The first photo with every speck marked.").Produces(200, contentType: "image/jpeg").ProducesProblem(404);
    }

    private static async Task<Results<Ok<TapPhoto>, ProblemHttpResult>> ReceiveAsync(HttpContext context, PhotoFiles files, string sha256)
    {
        Receipt receipt = await Receipt.TakeAsync(context, files, sha256, ending => FileOf(sha256, ending)).ConfigureAwait(false);
        return receipt.Problem is { } problem ? problem : TypedResults.Ok(new TapPhoto(sha256));
    }

    private static async Task<Results<Ok<TapReadingDocument>, ProblemHttpResult>> ReadAsync(PhotoFiles files, MeasureGate gate, RecordStore store, TapPair pair, CancellationToken cancel)
    {
        if (Find(files, pair.First) is not { } first || Find(files, pair.Second) is not { } second)
        {
            return Problem.NotFound("tap photo");
        }

        if (pair.Seconds is { } seconds && seconds is not (> 0 and <= 600))
        {
            return Problem.WrongValue("The time between the photos lies outside 0 to 600 seconds.", "Give it as it was, or leave it out.");
        }

        FrameOptions frame = Measuring.Options.For(store.Folder).Frame;
        string overlay = OverlayPath(files, pair.First!, pair.Second!);
        (TapReading? reading, TapRefusal? refusal) = await gate.RunAsync(() => Read([first, second], new TapOptions { SecondsBetween = pair.Seconds }, frame, overlay), cancel).ConfigureAwait(false);
        return reading is null
            ? Problem.Of(StatusCodes.Status422UnprocessableEntity, refusal!.Reason, $"Nothing was kept. {refusal.Advice}")
            : TypedResults.Ok(Of(reading, $"/api/taps/overlay/{pair.First}/{pair.Second}"));
    }

    private static Results<PhysicalFileHttpResult, ProblemHttpResult> Overlay(PhotoFiles files, string first, string second)
        => UploadsApi.IsPrint(first) && UploadsApi.IsPrint(second) && File.Exists(OverlayPath(files, first, second))
            ? TypedResults.PhysicalFile(OverlayPath(files, first, second), "image/jpeg") : Problem.NotFound("tap picture");

    private static (TapReading? Reading, TapRefusal? Refusal) Read(string[] paths, TapOptions options, FrameOptions frame, string overlay)
    {
        List<TapShot> shots = [];
        List<SheetPlace> places = [];
        try
        {
            // One decoded photo at a time: what is kept of it is small.
            foreach (string path in paths)
            {
                using PhotoOutcome opened = PhotoReader.Open(path, new PhotoLimits());
                if (opened.Photo is not { } photo)
                {
                    return (null, new TapRefusal(opened.Refusal!.Reason, opened.Refusal.Advice));
                }

                SheetPlace? place = TapSheet.In(photo.Pixels, frame, CancellationToken.None);
                shots.Add(TapShot.Look(Named(photo, shots.Count == 0 ? "the first photo" : "the second photo"), options, place));
                places.AddRange(place is null ? [] : [place]);
            }

            TapOutcome outcome = TapReader.Read(shots, options with { Sheets = places.Count == shots.Count ? places : [] });
            if (outcome.Reading is { } reading)
            {
                using PhotoOutcome first = PhotoReader.Open(paths[0], new PhotoLimits());
                using Mat picture = TapOverlayPainter.Paint(first.Photo!, reading);
                PictureWriter.WriteJpeg(picture, overlay);
            }

            return (outcome.Reading, outcome.Refusal);
        }
        finally
        {
            shots.ForEach(shot => shot.Dispose());
        }
    }

    // The file is named after its fingerprint; a sentence about it should not be. The pixels stay the opened photo's own.
#pragma warning disable CA2000
    private static Photo Named(Photo photo, string words) => new(photo.Facts with { FileName = words }, photo.Pixels, photo.Flags);
#pragma warning restore CA2000

    private static TapReadingDocument Of(TapReading reading, string overlay) => new()
    {
        Crawling = reading.Crawling,
        Low = reading.CrawlingLow,
        High = reading.CrawlingHigh,
        Candidates = reading.Candidates,
        Debris = reading.Debris,
        PossiblePredators = reading.PossiblePredators,
        Seconds = reading.Seconds,
        SmallestVisibleMm = reading.SmallestVisibleMm is { } mm && double.IsFinite(mm) ? Math.Round(mm, 3) : null,
        Flags = [.. reading.Flags.Select(name => Flag.All[name]).Select(flag => new FlagDocument(flag.Name, flag.Meaning, flag.Advice))],
        Overlay = overlay,
    };

    private static string FileOf(string sha256, string ending) => $"photos/taps/{sha256}{ending}";

    private static string? Find(PhotoFiles files, string? sha256)
        => sha256 is not null && UploadsApi.IsPrint(sha256) ? Endings.Select(ending => files.PathOf(FileOf(sha256, ending))).FirstOrDefault(File.Exists) : null;

    private static string OverlayPath(PhotoFiles files, string first, string second) => Path.Combine(files.Drawn, $"tap-{first[..32]}-{second[..32]}.jpg");
}
