using System.Globalization;
using LeafScan.Records;
using LeafScan.Web.Documents;
using LeafScan.Web.Measuring;
using Microsoft.AspNetCore.Http.HttpResults;

namespace LeafScan.Web.Api;

/// <summary>Care entries and taps of a plant, in two touches.</summary>
internal static class CareApi
{
    private const string ByPage = "put into the bin on the page";
    private const string Added = "added on the page";
    private const string Changed = "changed on the page";

    public static void Map(IEndpointRouteBuilder api)
    {
        api.MapPost("/plants/{id:long}/care", AddCare).WithTags("Care").WithSummary("Keeps what was done to a plant; can be undone.").ProducesProblem(404).ProducesProblem(422);
        api.MapPut("/care/{id:long}", ChangeCare).WithTags("Care").WithSummary("Puts a care entry right: it becomes what is sent; can be undone.").ProducesProblem(404).ProducesProblem(422);
        api.MapDelete("/care/{id:long}", (RecordStore store, long id) => Bin(store, BinKind.Care, id)).WithTags("Care").WithSummary("Puts a care entry into the bin; can be undone.").ProducesProblem(404);
        api.MapPost("/plants/{id:long}/taps", AddTap).WithTags("Taps").WithSummary("Keeps a tap; can be undone.").ProducesProblem(404).ProducesProblem(422);
        api.MapPut("/taps/{id:long}", ChangeTap).WithTags("Taps").WithSummary("Puts a tap right: it becomes what is sent, its sheet stays; can be undone.").ProducesProblem(404).ProducesProblem(422);
        api.MapDelete("/taps/{id:long}", (RecordStore store, long id) => Bin(store, BinKind.Tap, id)).WithTags("Taps").WithSummary("Puts a tap into the bin; can be undone.").ProducesProblem(404);
    }

    private static Results<Created<CareDocument>, ProblemHttpResult> AddCare(RecordStore store, ServerOptions options, long id, CareWish wish)
    {
        if (store.FindPlant(id) is null)
        {
            return Problem.NotFound("plant");
        }

        if (Told(new CareEntry(0, id, Today.At(options.Clock), CareKind.Nothing, null), wish, options, out CareEntry told) is { } wrong)
        {
            return wrong;
        }

        return TypedResults.Created((string?)null, DocumentMaker.Of(store.AddCare(id, told.DoneOn, told.What, told.Note, told.Details, Added)));
    }

    private static Results<Ok<CareDocument>, ProblemHttpResult> ChangeCare(RecordStore store, ServerOptions options, long id, CareWish wish)
    {
        if (store.FindCare(id) is not { } known)
        {
            return Problem.NotFound("entry");
        }

        if (Told(known, wish, options, out CareEntry told) is { } wrong)
        {
            return wrong;
        }

        return store.EditCare(id, _ => told, Changed) is { } now ? TypedResults.Ok(DocumentMaker.Of(now)) : Problem.NotFound("entry");
    }

    // What a wish says, on an entry that gives the day where the wish names none; the trouble with it, if any.
    private static ProblemHttpResult? Told(CareEntry entry, CareWish wish, ServerOptions options, out CareEntry told)
    {
        told = entry;
        if (!Enum.TryParse(wish.What, ignoreCase: true, out CareKind what) || !Enum.IsDefined(what) || wish.What!.Any(char.IsDigit))
        {
            return Problem.WrongValue("There is no such care.", "Choose rinse, soap, oil, predators, miticide, pruning or nothing.");
        }

        if (WrongDay(wish.Date, options) is { } wrong)
        {
            return wrong;
        }

        TimeOnly? at = null;
        if (!string.IsNullOrEmpty(wish.At))
        {
            if (!TimeOnly.TryParseExact(wish.At, "HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out TimeOnly time))
            {
                return Problem.WrongValue("The time of day cannot be read.", "Give it as 19:30.");
            }

            at = time;
        }

        told = entry with
        {
            DoneOn = wish.Date ?? entry.DoneOn,
            What = what,
            Note = Text(wish.Note),
            Details = new CareDetails
            {
                At = at,
                Active = Text(wish.Active),
                ModeGroup = Text(wish.ModeGroup),
                LabelNumber = Text(wish.LabelNumber),
                Target = Text(wish.Against),
                Conditions = Text(wish.Conditions),
            },
        };
        return null;
    }

    private static Results<Created<TapDocument>, ProblemHttpResult> AddTap(RecordStore store, TapSheets sheets, ServerOptions options, long id, TapWish wish)
    {
        if (store.FindPlant(id) is null)
        {
            return Problem.NotFound("plant");
        }

        if (wish.SheetId is { } sheet && store.FindTapSheet(sheet) is null)
        {
            return Problem.NotFound("tap sheet");
        }

        if (WrongDay(wish.Date, options) is { } wrong)
        {
            return wrong;
        }

        return TypedResults.Created((string?)null, DocumentMaker.Of(store.AddTap(new NewTap
        {
            PlantId = id,
            Day = wish.Date ?? Today.At(options.Clock),
            MitesByLens = wish.Mites,
            MitesByPhoto = wish.SheetId is { } read ? TapPhotosApi.MitesOf(store, sheets, read) : wish.MitesByPhoto,
            SheetId = wish.SheetId,
            Strikes = wish.Strikes,
            Branches = wish.Branches,
            Predators = wish.Predators,
            HoursSinceWet = wish.HoursSinceRinse,
            Note = Text(wish.Note),
        }, Added)));
    }

    private static Results<Ok<TapDocument>, ProblemHttpResult> ChangeTap(RecordStore store, ServerOptions options, long id, TapWish wish)
    {
        if (WrongDay(wish.Date, options) is { } wrong)
        {
            return wrong;
        }

        // The count of a sheet that was read here is its own; a person's word on its specks changes it.
        TapOnRecord? now = store.EditTap(
            id,
            old => old with
            {
                Day = wish.Date ?? old.Day,
                MitesByLens = wish.Mites,
                MitesByPhoto = old.SheetId is null ? wish.MitesByPhoto : old.MitesByPhoto,
                Strikes = wish.Strikes,
                Branches = wish.Branches,
                Predators = wish.Predators,
                HoursSinceWet = wish.HoursSinceRinse,
                Note = Text(wish.Note),
            },
            Changed);
        return now is null ? Problem.NotFound("entry") : TypedResults.Ok(DocumentMaker.Of(now));
    }

    private static Results<NoContent, ProblemHttpResult> Bin(RecordStore store, BinKind kind, long id)
        => store.PutInBin(kind, id, ByPage) ? TypedResults.NoContent() : Problem.NotFound("entry");

    private static ProblemHttpResult? WrongDay(DateOnly? day, ServerOptions options) => day is { } named && (named < RecordDays.Earliest || named > Today.At(options.Clock).AddDays(1))
        ? Problem.WrongValue("The day lies in the future or long ago.", "Give a day between 2000 and today.")
        : null;

    private static string? Text(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();
}
