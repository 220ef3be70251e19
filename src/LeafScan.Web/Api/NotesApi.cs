using LeafScan.Frame.Sheets;
using LeafScan.Notes.Client;
using LeafScan.Notes.Paper;
using LeafScan.Records;
using LeafScan.Web.Documents;
using LeafScan.Web.Drawing;
using Microsoft.AspNetCore.Http.HttpResults;

namespace LeafScan.Web.Api;

/// <summary>Clients' notes on a plant or on a place: words, paper, and the texts that a person writes; the store of texts is that of "note text".</summary>
internal static class NotesApi
{
    private const string ByPage = "written on the page";

    private static readonly NoteBlock[] Blocks = Enum.GetValues<NoteBlock>();

    public static void Map(IEndpointRouteBuilder api)
    {
        MapOf(api.MapGroup("/plants/{id:long}/note").WithTags("Notes"), OfPlant, "plant");
        MapOf(api.MapGroup("/places/{id:long}/note").WithTags("Notes"), OfPlace, "place");
        api.MapGet("/notes/sender", (RecordStore store) => Of(Settings.Load(store.Folder))).WithTags("Notes").WithSummary("Who writes notes, and in which form.");
        api.MapPut("/notes/sender", Change).WithTags("Notes").WithSummary("Changes who writes notes, and in which form.").ProducesProblem(404).ProducesProblem(422);
    }

    private static void MapOf(RouteGroupBuilder note, Func<RecordStore, long, NoteSubject?> find, string what)
    {
        note.MapGet("", Results<Ok<ClientNote>, ProblemHttpResult> (RecordStore store, NoteMaker maker, long id, DateOnly? since = null, string? kind = null)
            => Find(find, store, id, kind) is { } about ? TypedResults.Ok(Of(store, maker, about, since)) : Problem.NotFound(what))
            .WithSummary($"The words of the client's note on a {what}.").WithDescription("since lays the last walk beside the one on or before that day; kind takes readings of leaf, twig or plant only.").ProducesProblem(404);
        note.MapGet("/pages", async Task<Results<Ok<NotePaper>, ProblemHttpResult>> (RecordStore store, NoteMaker maker, CancellationToken cancel, long id, DateOnly? since = null, string? kind = null)
            => Find(find, store, id, kind) is not { } about ? Problem.NotFound(what)
                : PaperFonts.Missing is { } missing ? NoFonts(missing)
                : TypedResults.Ok(PaperOf(await maker.WholeAsync(about, since, cancel).ConfigureAwait(false))))
            .WithSummary("How it comes out on paper; its picture is drawn for it.").ProducesProblem(404).ProducesProblem(501);
        note.MapGet("/pdf", (RecordStore store, NoteMaker maker, CancellationToken cancel, long id, DateOnly? since = null, string? kind = null)
            => FileAsync(maker, Find(find, store, id, kind), what, since, "pdf", "application/pdf", maker.Pdf, cancel))
            .WithSummary("The note as a PDF.").Produces(200, contentType: "application/pdf").ProducesProblem(404).ProducesProblem(501);
        note.MapGet("/html", (RecordStore store, NoteMaker maker, CancellationToken cancel, long id, DateOnly? since = null, string? kind = null)
            => FileAsync(maker, Find(find, store, id, kind), what, since, "html", "text/html; charset=utf-8", made => System.Text.Encoding.UTF8.GetBytes(NoteHtml.Of(made.Content, made.Paper, made.Language)), cancel))
            .WithSummary("The note as a page of its own for the browser, to be sent by mail.").Produces(200, contentType: "text/html").ProducesProblem(404);
        note.MapGet("/picture", (RecordStore store, NoteMaker maker, CancellationToken cancel, long id, int page = 1, DateOnly? since = null, string? kind = null)
            => FileAsync(maker, Find(find, store, id, kind), what, since, page == 1 ? "png" : FormattableString.Invariant($"{page}.png"), "image/png", made => NoteMaker.Png(made, page), cancel))
            .WithSummary("A page of the note as a picture; page counts from 1.").Produces(200, contentType: "image/png").ProducesProblem(404).ProducesProblem(501);
        note.MapPut("/parts/{part}", Results<Ok<ClientNote>, ProblemHttpResult> (RecordStore store, NoteMaker maker, long id, string part, NotePartWish wish) =>
        {
            if (find(store, id) is not { } about)
            {
                return Problem.NotFound(what);
            }

            if (Blocks.Where(block => NameOf(block) == part).Select(block => (NoteBlock?)block).FirstOrDefault() is not { } known)
            {
                return Problem.WrongValue("A note has no such part.", $"Choose {string.Join(", ", Blocks.Select(NameOf))}.");
            }

            if (about.Plant is { } plant)
            {
                store.SetNoteTextOfPlant(plant.Id, known, wish.ForWalk, wish.Words, ByPage);
            }
            else
            {
                store.SetNoteTextOfPlace(about.Place.Id, known, wish.ForWalk, wish.Words, ByPage);
            }

            return TypedResults.Ok(Of(store, maker, about, null));
        }).WithSummary("Keeps a part of the note in a person's own words; empty words take them away; can be undone.").ProducesProblem(404).ProducesProblem(422);
    }

    private static NoteSubject? Find(Func<RecordStore, long, NoteSubject?> find, RecordStore store, long id, string? kind)
        => find(store, id) is { } about ? about with { Kind = KindsOnRecord.Known(kind) } : null;

    private static NoteSubject? OfPlant(RecordStore store, long id)
        => store.FindPlant(id) is { } plant ? new NoteSubject(plant, store.FindPlace(plant.PlaceId)!) : null;

    private static NoteSubject? OfPlace(RecordStore store, long id) => store.FindPlace(id) is { } place ? new NoteSubject(null, place) : null;

    private static async Task<Results<FileContentHttpResult, ProblemHttpResult>> FileAsync(
        NoteMaker maker, NoteSubject? about, string what, DateOnly? since, string ending, string kind, Func<MadeNote, byte[]?> write, CancellationToken cancel)
    {
        if (about is null)
        {
            return Problem.NotFound(what);
        }

        if (ending != "html" && PaperFonts.Missing is { } missing)
        {
            return NoFonts(missing);
        }

        MadeNote made = await maker.WholeAsync(about, since, cancel).ConfigureAwait(false);
        return write(made) is { } bytes
            ? TypedResults.File(bytes, kind, FormattableString.Invariant($"note-{about.Plant?.Code ?? about.Place.Name}-{made.Content.Day:yyyy-MM-dd}.{ending}"))
            : Problem.NotFound("page of the note");
    }

    private static ProblemHttpResult NoFonts(string missing)
        => Problem.Of(StatusCodes.Status501NotImplemented, missing, "The note as a page for the browser works without it.");

    private static NotePaper PaperOf(MadeNote made) => new(
        NotePages.Of(made.Content, made.Paper).Count, made.Paper.Name, made.Content.Picture is not null, made.Content.Picture?.Caption ?? made.Content.PictureMissing, NoteLetters.CannotSet(made.Content));

    private static ClientNote Of(RecordStore store, NoteMaker maker, NoteSubject about, DateOnly? since)
    {
        NoteContent note = maker.Words(about, since).Content;
        DateOnly? walk = note.Now?.Day ?? note.Plants.Max(plant => plant.Now?.Day);
        IReadOnlyList<NoteText> texts = about.Plant is { } plant ? store.NoteTextsOfPlant(plant.Id) : store.NoteTextsOfPlace(about.Place.Id);
        return new ClientNote
        {
            PlantId = about.Plant?.Id,
            PlaceId = about.Place.Id,
            Place = about.Place.Name,
            Code = about.Plant?.Code,
            Title = NotePages.TitleOf(note),
            Heading = note.Heading,
            Client = note.Client,
            Date = note.Day,
            By = note.By,
            Contact = note.Contact,
            Walk = walk,
            Beside = note.Before?.Day,
            Kind = about.Kind ?? note.Now?.Kind,
            Kinds = about.Plant is { } one ? KindsOnRecord.Of(store, one.Id) : [],
            Verdict = note.Verdict,
            Parts = [.. Blocks.Select(block => PartOf(note, texts, block, walk))],
        };
    }

    private static ClientNotePart PartOf(NoteContent note, IReadOnlyList<NoteText> texts, NoteBlock block, DateOnly? walk)
    {
        // As the note itself chooses: one for this walk goes before one that stands.
        NoteText? own = texts.Where(text => text.Block == block && (text.ForDay is null || text.ForDay == walk)).OrderBy(text => text.ForDay is null).FirstOrDefault();
        (string? heading, IReadOnlyList<string> lines) = block switch
        {
            NoteBlock.Greeting => (null, Line(note.Greeting)),
            NoteBlock.Seen => (note.Words.Seen, note.Seen),
            NoteBlock.Done => (note.Words.Done, note.Done),
            NoteBlock.Next => (note.Words.Next, note.Next),
            NoteBlock.Cautions => (note.Words.Cautions, note.Cautions),
            _ => (null, Line(note.Closing)),
        };
        return new ClientNotePart(NameOf(block), heading, own?.Words ?? string.Join("\n", lines), own is not null, own?.ForDay);
    }

    private static string[] Line(string? words) => words is null ? [] : [words];

    private static string NameOf(NoteBlock block) => DocumentMaker.Lower(block);

    private static NoteSender Of(Settings settings) => new()
    {
        By = settings.Note.By ?? settings.Who,
        Contact = settings.Note.Contact,
        Country = settings.Note.Country,
        Units = settings.Note.Units,
        Paper = settings.Note.Paper,
    };

    private static Results<Ok<NoteSender>, ProblemHttpResult> Change(RecordStore store, NoteSender wish)
    {
        if (wish.Country is { Length: > 0 } land && !(land.Length == 2 && land.All(char.IsAsciiLetter)))
        {
            return Problem.WrongValue("This is no country.", "Give two letters after ISO 3166, such as US or DE.");
        }

        if (wish.Units is not (null or "" or "metric" or "us") || (wish.Paper is { Length: > 0 } paper && PaperSize.All.All(size => size.Name != paper)))
        {
            return Problem.WrongValue("This choice is not known.", "Units are metric or us, paper is a4 or letter.");
        }

        if (wish.Client is { } name)
        {
            if (store.Clients().FirstOrDefault(client => string.Equals(client.Name, name.Trim(), StringComparison.OrdinalIgnoreCase)) is not { } known)
            {
                return Problem.NotFound("client");
            }

            store.SetCountry(known.Id, string.IsNullOrEmpty(wish.Country) ? null : wish.Country, ByPage);
        }

        lock (UpkeepApi.SettingsGate)
        {
            Settings settings = Settings.Load(store.Folder);
            Settings now = settings with
            {
                Note = settings.Note with
                {
                    By = Kept(wish.By, settings.Note.By),
                    Contact = Kept(wish.Contact, settings.Note.Contact),
                    Country = wish.Client is null ? Kept(wish.Country, settings.Note.Country)?.ToUpperInvariant() : settings.Note.Country,
                    Units = Kept(wish.Units, settings.Note.Units),
                    Paper = Kept(wish.Paper, settings.Note.Paper),
                },
            };
            if (now != settings)
            {
                now.Save(store.Folder);
            }

            return TypedResults.Ok(Of(now));
        }
    }

    private static string? Kept(string? wish, string? old) => wish is null ? old : string.IsNullOrWhiteSpace(wish) ? null : wish.Trim();
}
