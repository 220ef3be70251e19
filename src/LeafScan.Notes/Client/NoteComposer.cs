using LeafScan.Records;
using LeafScan.Trends;
using LeafScan.Trends.NextSteps;
using LeafScan.Trends.Thresholds;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Notes.Client;

/// <summary>Composes notes from the record.</summary>
/// <param name="store">The record.</param>
/// <param name="request">What else goes in.</param>
public sealed class NoteComposer(RecordStore store, NoteRequest request)
{
    // Longer lists are cut, and the page says so.
    private const int MostDone = 8;

    private const int MostWalks = 24;

    private const int MostPictureTries = 3;

    private readonly PlantJudge _judge = new(store, request.Kind);

    /// <summary>The note on one plant.</summary>
    public NoteContent OfPlant(Plant plant)
    {
        IReadOnlyList<LeafOnRecord> leaves = store.LeavesOfPlant(plant.Id, request.Kind);
        IReadOnlyList<SeriesPoint> points = SteadyChance.SeriesOf(leaves);
        List<NoteFigure> walks = Figures(points, KindOf(leaves));
        NoteFigure? now = walks.LastOrDefault();
        NoteFigure? before = Beside(walks);
        DateOnly from = request.Since ?? before?.Day ?? now?.Day ?? request.Today;
        Verdict verdict = _judge.Judge(plant);
        NextAdvice advice = new PlantAdviser(store, RecordThresholds.Load(store)).Advise([plant], request.Today, request.Kind)[0].Advice;
        IReadOnlyList<CareEntry> care = store.CareOfPlant(plant.Id);
        IReadOnlyList<TapOnRecord> taps = store.TapsOfPlant(plant.Id);
        (NotePicture? picture, string? missing) = now is null ? (null, null) : PictureOf(plant, [.. leaves.Where(leaf => leaf.WalkedOn == now.Day)], now);
        NoteContent content = new()
        {
            Words = request.Words,
            Forms = request.Forms,
            Heading = plant.Name ?? plant.Species ?? plant.Code,
            Under = PlantLines.Of(plant),
            Client = ClientOf(plant.PlaceId),
            Day = request.Today,
            By = request.By,
            Contact = request.Contact,
            Now = now,
            Before = before,
            Change = now is not null && before is not null ? NoteSentences.Change(before, now) : null,
            Seen = [.. Seen(points, leaves, now), .. taps.Where(tap => tap.Tap.Day >= from && tap.Tap.Day <= request.Today).TakeLast(2).Select(tap => NoteSentences.Tap(tap, request.Forms))],
            Verdict = now is null ? null : NoteSentences.Verdict(verdict),
            Because = now is null ? [] : [.. verdict.Because.Select(request.Forms.Sentence)],
            Picture = picture,
            PictureMissing = missing,
            Walks = [.. walks.TakeLast(MostWalks)],
            Marks = Marks(care, taps, walks),
            Done = Done(care, from),
            Next = Next(verdict, advice),
            Cautions = [.. advice.Cautions.Select(line => request.Forms.Sentence($"{line.Words} {line.Reason}"))],
            Measured = NoteFixed.Measured(request.ToolVersion, NoteThing.Of(now?.Kind)),
            Limits = NoteFixed.Limits(NoteThing.Of(now?.Kind)),
        };
        return NoteTextsOver.Lay(content, store.NoteTextsOfPlant(plant.Id), now?.Day);
    }

    /// <summary>The note on all plants of a place, the most damaged first.</summary>
    public NoteContent OfPlace(Place place)
    {
        List<(Plant Plant, NotePlant Row, List<NoteFigure> Walks, Verdict Verdict)> rows = [.. store.Plants(place.Name).Select(Row)];
        List<(Plant Plant, NotePlant Row, List<NoteFigure> Walks, Verdict Verdict)> ranked = [.. rows.OrderByDescending(row => row.Row.Now?.Damage ?? -1)];
        DateOnly? last = rows.Select(row => row.Row.Now?.Day).Max();
        (NotePicture? picture, string? missing) = ranked.Count > 0 && ranked[0] is { Row.Now: { } now } worst
            ? PictureOf(worst.Plant, [.. store.LeavesOfPlant(worst.Plant.Id, request.Kind).Where(leaf => leaf.WalkedOn == now.Day)], now)
            : (null, null);
        NoteContent content = new()
        {
            Words = request.Words,
            Forms = request.Forms,
            Heading = place.Name,
            Under = [NoteForms.Count(rows.Count, "plant", "plants") + " on record"],
            Client = place.ClientName,
            Day = request.Today,
            By = request.By,
            Contact = request.Contact,
            Seen = [.. NoteFixed.SeenInPlace([.. ranked.Select(row => row.Row)], request.Forms), .. NoteSentences.KindsDiffer(ranked.Select(row => row.Row.Now?.Kind).OfType<string>())],
            Picture = picture is null ? null : picture with { Caption = $"{ranked[0].Plant.Code}, the most damaged. {picture.Caption}" },
            PictureMissing = missing,
            Plants = [.. ranked.Select(row => row.Row)],
            Next = [.. ranked.Where(row => row.Row.Now is not null).Take(MostDone).Select(row => request.Forms.Sentence($"{row.Plant.Code}: {row.Verdict.Next}"))],
            Cautions = NoteFixed.CautionsForAll,
            Measured = NoteFixed.Measured(request.ToolVersion, Thing(ranked)),
            Limits = NoteFixed.Limits(Thing(ranked)),
        };
        return NoteTextsOver.Lay(content, store.NoteTextsOfPlace(place.Id), last);
    }

    // Null where plants differ in kind: words for leaves would be wrong for some.
    private static NoteThing? Thing(IEnumerable<(Plant Plant, NotePlant Row, List<NoteFigure> Walks, Verdict Verdict)> rows)
    {
        string[] kinds = [.. rows.Select(row => row.Row.Now?.Kind).OfType<string>().Distinct()];
        return kinds.Length > 1 ? null : NoteThing.Of(kinds.FirstOrDefault());
    }

    private (Plant Plant, NotePlant Row, List<NoteFigure> Walks, Verdict Verdict) Row(Plant plant)
    {
        IReadOnlyList<LeafOnRecord> leaves = store.LeavesOfPlant(plant.Id, request.Kind);
        List<NoteFigure> walks = Figures(SteadyChance.SeriesOf(leaves), KindOf(leaves));
        Verdict verdict = _judge.Judge(plant);
        NoteFigure? before = Beside(walks);
        DateOnly from = request.Since ?? before?.Day ?? DateOnly.MinValue;
        IEnumerable<string> done = store.CareOfPlant(plant.Id).Where(entry => entry.DoneOn >= from && entry.DoneOn <= request.Today)
            .GroupBy(entry => entry.What).Select(kind => NoteSentences.Mark(kind.Key) + (kind.Count() > 1 ? FormattableString.Invariant($" {kind.Count()} times") : ""));
        string word = walks.Count == 0 ? "not measured" : NoteSentences.VerdictWords(verdict.Word);
        return (plant, new NotePlant(plant.Code, plant.Name ?? plant.Species, walks.LastOrDefault(), before, word, string.Join(", ", done)), walks, verdict);
    }

    private static string? KindOf(IReadOnlyList<LeafOnRecord> leaves) => leaves.Count > 0 ? leaves[0].Kind : null;

    private List<NoteFigure> Figures(IEnumerable<SeriesPoint> points, string? kind) =>
    [
        .. points.Where(point => point.WalkedOn <= request.Today && point.Leaves is { Damage: not null, DamageInterval: not null })
            .Select(point => new NoteFigure(point.WalkedOn, point.Leaves.Damage!.Value, point.Leaves.DamageInterval!.Value, point.Leaves.LeafCount, point.Leaves.PhotoCount)
            {
                Chewed = point.Leaves.Shares?.Chewed ?? 0,
                Kind = kind ?? "leaf",
            }),
    ];

    private NoteFigure? Beside(List<NoteFigure> walks)
    {
        if (walks.Count < 2)
        {
            return null;
        }

        List<NoteFigure> earlier = walks[..^1];
        return request.Since is { } since ? earlier.LastOrDefault(walk => walk.Day <= since) ?? earlier[0] : earlier[^1];
    }

    private IEnumerable<string> Seen(IReadOnlyList<SeriesPoint> points, IReadOnlyList<LeafOnRecord> leaves, NoteFigure? now)
    {
        if (now is null)
        {
            return [NoteSentences.NothingMeasured];
        }

        LeafOnRecord[] latest = [.. leaves.Where(leaf => leaf.WalkedOn == now.Day)];
        string[] likeliest = [.. latest.Select(leaf => store.ShapeOfLeaf(leaf.LeafId)).OfType<LeafShape>().SelectMany(shape => shape.Causes.Take(1)).Select(cause => cause.Cause)];
        IEnumerable<string> seen = NoteSentences.Seen(points.Last(point => point.WalkedOn == now.Day), latest, request.Forms);
        return NoteSentences.Causes(likeliest, NoteThing.Of(now.Kind)) is { } causes ? [.. seen, causes] : seen;
    }

    // The leaf nearest to the mean stands for the others; a photo that is gone gives way to the next.
    private (NotePicture? Picture, string? Missing) PictureOf(Plant plant, IReadOnlyList<LeafOnRecord> leaves, NoteFigure now)
    {
        if (request.PictureOf is not { } draw)
        {
            return (null, null);
        }

        Dictionary<long, PhotoOnRecord> photos = store.PhotosOfPlant(plant.Id).ToDictionary(photo => photo.Id);
        IEnumerable<LeafOnRecord> ranked = leaves.OrderBy(leaf => Math.Abs(leaf.Damage - now.Damage)).ThenBy(leaf => leaf.PhotoId);
        int tries = 0;
        foreach (LeafOnRecord leaf in ranked.DistinctBy(leaf => leaf.PhotoId))
        {
            if (!photos.TryGetValue(leaf.PhotoId, out PhotoOnRecord? photo) || !File.Exists(photo.PathSeen))
            {
                continue;
            }

            if (draw(photo) is { } picture)
            {
                string which = $"The {NoteThing.Of(leaf.Kind).One}" + (leaves.Count > 1 ? " nearest to the mean" : "");
                return (picture with { Caption = $"{which}, {request.Forms.Day(now.Day)}: {NoteForms.Percent(leaf.Damage)} damage. {picture.Caption}" }, null);
            }

            if (++tries == MostPictureTries)
            {
                break;
            }
        }

        return (null, $"No picture: the photos of {request.Forms.Day(now.Day)} are no longer at hand. The figures were measured on them and stand.");
    }

    private string? ClientOf(long placeId) => store.Places().FirstOrDefault(place => place.Id == placeId)?.ClientName;

    private IReadOnlyList<string> Done(IReadOnlyList<CareEntry> care, DateOnly from)
    {
        CareEntry[] since = [.. care.Where(entry => entry.DoneOn >= from && entry.DoneOn <= request.Today)];
        if (since.Length == 0)
        {
            return [$"Nothing is on record since {request.Forms.Day(from)}."];
        }

        IEnumerable<string> lines = since.TakeLast(MostDone).Select(entry => NoteSentences.Done(entry, request.Forms));
        return since.Length <= MostDone ? [.. lines] : [$"{NoteForms.Count(since.Length - MostDone, "earlier entry is", "earlier entries are")} on record.", .. lines];
    }

    private static IReadOnlyList<NoteMark> Marks(IEnumerable<CareEntry> care, IEnumerable<TapOnRecord> taps, List<NoteFigure> walks)
    {
        if (walks.Count == 0)
        {
            return [];
        }

        // What lies far before the first walk would squeeze the chart.
        DateOnly first = walks[Math.Max(0, walks.Count - MostWalks)].Day.AddDays(-21);
        return
        [
            .. care.Select(entry => new NoteMark(entry.DoneOn, NoteSentences.Mark(entry.What)))
                .Concat(taps.GroupBy(tap => tap.Tap.Day).Select(day => new NoteMark(day.Key, FormattableString.Invariant($"tap: {TapOnRecord.MitesABranch(day):0.#}"))))
                .Where(mark => mark.Day >= first).OrderBy(mark => mark.Day),
        ];
    }

    // The verdict's own step comes first; advice that says the same again, or that rest is enough where the verdict asks for more, is left out.
    private IReadOnlyList<string> Next(Verdict verdict, NextAdvice advice)
    {
        bool taps = verdict.Next.Contains("tap", StringComparison.OrdinalIgnoreCase) || verdict.Next.StartsWith("Nothing needs doing", StringComparison.Ordinal);
        IEnumerable<string> more = advice.Lines
            .Where(line => !(taps && line.Words.StartsWith("Tap before", StringComparison.Ordinal)) && !line.Words.StartsWith("Nothing to do", StringComparison.Ordinal))
            .Select(line => $"{line.Words} {line.Reason}");
        return [.. new[] { verdict.Next }.Concat(more).Select(request.Forms.Sentence)];
    }
}
