using System.Globalization;
using LeafScan.Photos;
using LeafScan.Records;
using LeafScan.Taps;
using LeafScan.Web.Documents;
using LeafScan.Web.Drawing;
using LeafScan.Web.Measuring;
using LeafScan.Web.Uploads;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Net.Http.Headers;

namespace LeafScan.Web.Api;

/// <summary>/api/taps: two photos of one white sheet in, what crawled out, and what a person says of single specks.</summary>
internal static class TapPhotosApi
{
    private const string ByPage = "said on the page";
    private const int UsualEdge = 1600;

    public static void Map(IEndpointRouteBuilder api)
    {
        RouteGroupBuilder taps = api.MapGroup("/taps").WithTags("Taps");
        taps.MapPut("/photos/{sha256}", ReceiveAsync).WithSummary("Sends one photo of a tap sheet as the raw body.").Accepts<Stream>("*/*").ProducesProblem(413).ProducesProblem(422).ProducesProblem(507);
        taps.MapPost("/read", ReadAsync).WithSummary("Counts what crawls on two photos that were sent before, and keeps the reading.").ProducesProblem(404).ProducesProblem(422);
        RouteGroupBuilder sheet = taps.MapGroup("/sheets/{id:long}");
        sheet.MapGet("", One).WithSummary("A reading with its specks and what was said of them.").ProducesProblem(404);
        sheet.MapPost("/specks", Say).WithSummary("Says what is at a place of the first photo: kept, counted at once, never overwritten; can be undone.").ProducesProblem(404).ProducesProblem(422);
        sheet.MapGet("/first", (RecordStore store, TapDrawer drawer, HttpContext context, long id, int edge = UsualEdge) => PictureAsync(store, id, found => drawer.DrawAsync(found, false, edge, context.RequestAborted), context))
            .WithSummary("The first photo; edge is the longest side in pixels.").Produces(200, contentType: "image/jpeg").ProducesProblem(404);
        sheet.MapGet("/second", (RecordStore store, TapDrawer drawer, HttpContext context, long id, int edge = UsualEdge) => PictureAsync(store, id, found => drawer.DrawAsync(found, true, edge, context.RequestAborted), context))
            .WithSummary("The second photo laid over the first; same size.").Produces(200, contentType: "image/jpeg").ProducesProblem(404);
        sheet.MapGet("/overlay", (RecordStore store, TapDrawer drawer, HttpContext context, long id) => PictureAsync(store, id, found => drawer.OverlayAsync(found, context.RequestAborted), context))
            .WithSummary("The first photo with every speck marked and a legend, as read from the photos.").Produces(200, contentType: "image/jpeg").ProducesProblem(404);
    }

    /// <summary>The count of a sheet as a person put it right; null when there is no such sheet or no count.</summary>
    public static int? MitesOf(RecordStore store, TapSheets sheets, long id)
    {
        if (store.FindTapSheet(id) is not { } sheet)
        {
            return null;
        }

        TapReading reading = TapSheets.ReadingOf(sheet).Reading;
        return TapSheets.Mites(reading, sheets.SaidOf(sheet, reading));
    }

    private static async Task<Results<Ok<TapPhoto>, ProblemHttpResult>> ReceiveAsync(HttpContext context, PhotoFiles files, string sha256)
    {
        Receipt receipt = await Receipt.TakeAsync(context, files, sha256, ending => TapSheets.NameFor(sha256, ending)).ConfigureAwait(false);
        return receipt.Problem is { } problem ? problem : TypedResults.Ok(new TapPhoto(sha256));
    }

    private static async Task<Results<Ok<TapSheetDocument>, ProblemHttpResult>> ReadAsync(RecordStore store, TapSheets sheets, TapPair pair, CancellationToken cancel)
    {
        if (sheets.Find(pair.First) is null || sheets.Find(pair.Second) is null)
        {
            return Problem.NotFound("tap photo");
        }

        if (pair.Seconds is { } seconds && seconds is not (> 0 and <= 600))
        {
            return Problem.WrongValue("The time between the photos lies outside 0 to 600 seconds.", "Give it as it was, or leave it out.");
        }

        (TapSheetOnRecord? sheet, TapRefusal? refusal) = await sheets.ReadAsync(pair.First!, pair.Second!, pair.Seconds, cancel).ConfigureAwait(false);
        return sheet is null
            ? Problem.Of(StatusCodes.Status422UnprocessableEntity, refusal!.Reason, $"Nothing was kept. {refusal.Advice}")
            : TypedResults.Ok(Of(store, sheet));
    }

    private static Results<Ok<TapSheetDocument>, ProblemHttpResult> One(RecordStore store, long id)
        => store.FindTapSheet(id) is { } sheet ? TypedResults.Ok(Of(store, sheet)) : Problem.NotFound("tap sheet");

    private static Results<Ok<TapSheetDocument>, ProblemHttpResult> Say(RecordStore store, long id, SpeckWish wish)
    {
        if (store.FindTapSheet(id) is not { } sheet)
        {
            return Problem.NotFound("tap sheet");
        }

        KeptReading kept = TapSheets.ReadingOf(sheet);
        if (WordOf(wish.Said) is not { } word)
        {
            return Problem.WrongValue("A speck is a mite, notMite or a predator.", "Choose one of them.");
        }

        if (wish.X is not { } x || wish.Y is not { } y || !(x >= 0 && y >= 0 && x <= kept.Width && y <= kept.Height))
        {
            return Problem.WrongValue("The place lies outside the photo.", "Touch a place within the photo.");
        }

        store.AddTapCorrection(id, x, y, word, wish.Who, ByPage, said => TapSheets.Mites(kept.Reading, TapSheets.Lay(kept.Reading, said)));
        return One(store, id);
    }

    private static async Task<Results<PhysicalFileHttpResult, ProblemHttpResult>> PictureAsync(RecordStore store, long id, Func<TapSheetOnRecord, Task<string?>> draw, HttpContext context)
    {
        if (store.FindTapSheet(id) is not { } sheet)
        {
            return Problem.NotFound("tap sheet");
        }

        if (await draw(sheet).ConfigureAwait(false) is not { } path)
        {
            return Problem.Of(StatusCodes.Status404NotFound, "A photo of this tap sheet is no longer in the data folder.", "Its counts and what you said of them are safe on record.");
        }

        context.Response.Headers.CacheControl = "private, no-cache";
        return TypedResults.PhysicalFile(path, "image/jpeg", entityTag: new EntityTagHeaderValue($"\"{Path.GetFileNameWithoutExtension(path)}\""));
    }

    private static TapSheetDocument Of(RecordStore store, TapSheetOnRecord sheet)
    {
        KeptReading kept = TapSheets.ReadingOf(sheet);
        TapReading reading = kept.Reading;
        IReadOnlyList<TapCorrection> corrections = store.TapCorrections(sheet.Id);
        IReadOnlyList<SaidSpeck> said = TapSheets.Lay(reading, corrections);
        (long TapId, long PlantId)? keptWith = store.TapOfSheet(sheet.Id);
        Plant? plant = keptWith is { } known ? store.FindPlant(known.PlantId) : null;
        TapOnRecord? tap = plant is null ? null : store.TapsOfPlant(plant.Id).FirstOrDefault(one => one.Id == keptWith!.Value.TapId);
        return new TapSheetDocument
        {
            Id = sheet.Id,
            PlantId = plant?.Id,
            PlantCode = plant?.Code,
            Tap = tap is null ? null : DocumentMaker.Of(tap),
            Day = kept.Day,
            Width = kept.Width,
            Height = kept.Height,
            Crawling = reading.Crawling,
            Low = reading.CrawlingLow,
            High = reading.CrawlingHigh,
            Mites = TapSheets.Mites(reading, said),
            Predators = said.Count(speck => speck.IsPredator),
            Candidates = reading.Candidates,
            Debris = reading.Debris,
            PossiblePredators = reading.PossiblePredators,
            Seconds = reading.Seconds,
            PixelsPerMm = DocumentMaker.Round(reading.PixelsPerMm),
            SmallestVisibleMm = Finite(reading.SmallestVisibleMm),
            Flags = [.. reading.Flags.Where(Flag.All.ContainsKey).Select(name => Flag.All[name]).Select(flag => new FlagDocument(flag.Name, flag.Meaning, flag.Advice))],
            Specks = [.. said.Select(Of)],
            Said = [.. corrections.Select(one => new TapSaid(one.MadeAt, one.Who, WordOf(one.Word), one.X, one.Y, one.TakenBackAt))],
            Overlay = string.Create(CultureInfo.InvariantCulture, $"/api/taps/sheets/{sheet.Id}/overlay"),
        };
    }

    private static TapSpeckDocument Of(SaidSpeck said) => new()
    {
        X = Math.Round(said.Speck.X, 1),
        Y = Math.Round(said.Speck.Y, 1),
        ToX = Math.Round(said.Speck.ToX, 1),
        ToY = Math.Round(said.Speck.ToY, 1),
        D = Math.Round(said.Speck.DiameterPx, 1),
        DiameterMm = Finite(said.Speck.DiameterMm),
        MovedMm = Finite(said.Speck.MovedMm),
        Fate = said.Speck.Fate.ToString() is var fate ? char.ToLowerInvariant(fate[0]) + fate[1..] : "",
        Said = said.Said switch
        {
            null => null,
            SpeckWord.Mite => "mite",
            SpeckWord.Predator => "predator",
            _ => "notMite",
        },
        Added = said.IsAdded,
    };

    private static double? Finite(double? value) => value is { } number && double.IsFinite(number) ? Math.Round(number, 3) : null;

    private static TapWord? WordOf(string? word) => word switch
    {
        "mite" => TapWord.Mite,
        "notMite" => TapWord.NotMite,
        "predator" => TapWord.Predator,
        _ => null,
    };

    private static string WordOf(TapWord word) => word switch
    {
        TapWord.Mite => "mite",
        TapWord.Predator => "predator",
        _ => "notMite",
    };
}
