using LeafScan.Frame.Sheets;
using LeafScan.Notes.Client;
using LeafScan.Notes.Paper;
using LeafScan.Records;
using LeafScan.Web.Api;
using LeafScan.Web.Measuring;

namespace LeafScan.Web.Drawing;

/// <summary>A client's note with what is needed to write it down.</summary>
/// <param name="Content">What it says.</param>
/// <param name="Paper">Its paper.</param>
/// <param name="Language">Language of its words, a BCP 47 tag.</param>
internal sealed record MadeNote(NoteContent Content, PaperSize Paper, string Language);

/// <summary>What a note is on: a plant, or a place with all its plants.</summary>
/// <param name="Plant">The plant; null for a place.</param>
/// <param name="Place">The place.</param>
/// <param name="Kind">By readings of this kind only: leaf, twig or plant; null for leaves where a plant has any, else twigs, else whole plants.</param>
internal sealed record NoteSubject(Plant? Plant, Place Place, string? Kind = null);

/// <summary>Makes clients' notes for the page, as the command does, and keeps the pictures drawn last: a person reads, changes a word and downloads.</summary>
internal sealed class NoteMaker(RecordStore store, ServerOptions options, MeasureGate gate)
{
    // A picture takes some hundred kilobytes; a person has one or two notes in hand.
    private const int MostPictures = 8;

    private const double DotsPerInch = 150;

    private readonly Lock _one = new();
    private readonly Dictionary<string, NotePicture?> _drawn = [];
    private readonly Queue<string> _order = new();

    /// <summary>The words of a note, without its picture: quick.</summary>
    public MadeNote Words(NoteSubject about, DateOnly? since) => Compose(about, since, null);

    /// <summary>The whole note. Its picture is drawn when its turn comes; a photo may have to be measured for it.</summary>
    public async Task<MadeNote> WholeAsync(NoteSubject about, DateOnly? since, CancellationToken cancel)
    {
        bool isMissing = false;
        MadeNote note = Compose(about, since, photo => Kept(photo, () =>
        {
            isMissing = true;
            return null;
        }));
        return isMissing ? await gate.RunAsync(() => Compose(about, since, photo => Kept(photo, () => Draw(photo))), cancel).ConfigureAwait(false) : note;
    }

    /// <summary>Writes a note as a PDF.</summary>
    public byte[] Pdf(MadeNote note)
    {
        using MemoryStream whole = new();
        PdfPaper.Write(whole, NotePages.Of(note.Content, note.Paper), new PdfFacts(NotePages.TitleOf(note.Content), options.Clock.GetUtcNow())
        {
            Author = note.Content.By ?? "",
            Subject = note.Content.Words.Title,
            Language = note.Language,
            TrueScale = false,
        });
        return whole.ToArray();
    }

    /// <summary>Draws one page of a note as a PNG; null when it has no such page.</summary>
    /// <param name="note">The note.</param>
    /// <param name="page">The page, from 1.</param>
    public static byte[]? Png(MadeNote note, int page)
    {
        IReadOnlyList<PaperPage> pages = NotePages.Of(note.Content, note.Paper);
        if (page < 1 || page > pages.Count)
        {
            return null;
        }

        using MemoryStream picture = new();
        PngPaper.Write(picture, pages[page - 1], DotsPerInch);
        return picture.ToArray();
    }

    private MadeNote Compose(NoteSubject about, DateOnly? since, Func<PhotoOnRecord, NotePicture?>? pictures)
    {
        NoteLook look = NoteLook.Of(Settings.Load(store.Folder), store.CountryOfPlace(about.Place.Id), new NoteAsked());
        NoteComposer composer = new(store, NoteRequest.Of(look, Today.At(options.Clock), since, pictures) with { Kind = about.Kind });
        NoteContent content = about.Plant is { } plant ? composer.OfPlant(plant) : composer.OfPlace(about.Place);
        return new MadeNote(content, look.Paper, look.Language);
    }

    private NotePicture? Draw(PhotoOnRecord photo)
    {
        PictureChoice how = new PictureChoice { Options = Measuring.Options.For(store.Folder).AsMeasured(photo.PlantId is { } id ? store.FindPlant(id) : null, store.ReadingsOfPhoto(photo.Id)[0].Origin) }.AsRecorded(photo, store.CorrectionsOf(photo.Id));
        return NotePictures.Draw(photo.PathSeen, photo.Sha256, how).Picture;
    }

    private NotePicture? Kept(PhotoOnRecord photo, Func<NotePicture?> draw)
    {
        string key = FormattableString.Invariant($"{photo.Sha256} {store.ReadingsOfPhoto(photo.Id)[0].Id} {photo.Origin}");
        lock (_one)
        {
            if (_drawn.TryGetValue(key, out NotePicture? known))
            {
                return known;
            }
        }

        NotePicture? drawn = draw();
        lock (_one)
        {
            if (drawn is not null && _drawn.TryAdd(key, drawn))
            {
                _order.Enqueue(key);
                while (_order.Count > MostPictures)
                {
                    _drawn.Remove(_order.Dequeue());
                }
            }
        }

        return drawn;
    }
}
