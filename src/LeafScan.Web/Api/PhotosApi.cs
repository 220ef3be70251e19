using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Records;
using LeafScan.Web.Documents;
using LeafScan.Web.Measuring;
using LeafScan.Web.Progress;
using Microsoft.AspNetCore.Http.HttpResults;

namespace LeafScan.Web.Api;

/// <summary>/api/photos: one photo with its leaves, and what a person says of them.</summary>
internal static class PhotosApi
{
    private const string ByPage = "said on the page";

    public static void Map(IEndpointRouteBuilder api)
    {
        RouteGroupBuilder photos = api.MapGroup("/photos/{id:long}").WithTags("Photos");
        photos.MapGet("", One).WithSummary("One photo with its leaves, specks and causes.").ProducesProblem(404);
        photos.MapPut("/plant", Move).WithSummary("Says which plant it shows; can be undone.").ProducesProblem(404).ProducesProblem(422);
        photos.MapPost("/leaves/{index:int}/correction", CorrectAsync).WithSummary("Says something of a leaf: kept, measured again at once, never overwritten; can be undone.")
            .ProducesProblem(404).ProducesProblem(422);
        photos.MapPut("/leaf", Note).WithSummary("Says how old its leaves are and which tagged leaf it shows; can be undone.").ProducesProblem(404).ProducesProblem(422);
        photos.MapDelete("", Bin).WithSummary("Puts the photo into the bin; can be undone.").ProducesProblem(404);
        api.MapPost("/undo", UndoAsync).WithTags("Undo").WithSummary("Takes the last change by hand back; asked again, the one before. change names another, such as what a late tag moved.").ProducesProblem(422);
    }

    private static Results<Ok<PhotoDocument>, ProblemHttpResult> One(RecordStore store, PhotoAgain again, long id)
        => store.FindPhoto(id) is { } photo ? TypedResults.Ok(Whole(store, again, photo)) : Problem.NotFound("photo");

    private static Results<Ok<PhotoDocument>, ProblemHttpResult> Move(RecordStore store, PhotoAgain again, long id, PlantOfPhoto wish)
    {
        if (store.FindPhoto(id) is not { } photo)
        {
            return Problem.NotFound("photo");
        }

        Plant? plant = wish.PlantId is { } plantId ? store.FindPlant(plantId) : null;
        if (wish.PlantId is not null && plant?.PlaceId != store.FindWalk(photo.WalkId)!.PlaceId)
        {
            return Problem.WrongValue("There is no such plant in the place of this photo.", "Choose a plant of the same place.");
        }

        store.MovePhoto(id, plant?.Code, ByPage);
        return One(store, again, id);
    }

    private static Results<Ok<PhotoDocument>, ProblemHttpResult> Note(RecordStore store, PhotoAgain again, long id, LeafNote note)
    {
        if (store.FindPhoto(id) is null)
        {
            return Problem.NotFound("photo");
        }

        if (note.Age is not (null or "" or "old" or "new"))
        {
            return Problem.WrongValue("A leaf is old or new.", "Choose one of them, or leave it empty.");
        }

        store.NotePhotoLeaf(id, note.Age switch
        {
            "old" => LeafGrowth.Old,
            "new" => LeafGrowth.New,
            _ => null,
        }, note.Label, ByPage);
        return One(store, again, id);
    }

    private static async Task<Results<Ok<PhotoDocument>, ProblemHttpResult>> CorrectAsync(
        RecordStore store, PhotoAgain again, long id, int index, CorrectionWish wish, CancellationToken cancel)
    {
        if (store.FindPhoto(id) is not { IsInBin: false } photo || store.ReadingOf(id) is not { } reading || index < 0 || index >= reading.Leaves.Count)
        {
            return Problem.NotFound("leaf");
        }

        if (KindOf(wish.What) is not { } what)
        {
            return Problem.WrongValue("A correction says notALeaf, notMites or outline.", "Choose one of them.");
        }

        if (wish.Outline?.Any(corner => corner.Length != 2 || corner[0] < 0 || corner[1] < 0 || corner[0] > reading.Width || corner[1] > reading.Height) == true)
        {
            return Problem.WrongValue("A corner of the outline lies outside the photo.", "Draw it within the photo.");
        }

        if (!File.Exists(photo.PathSeen))
        {
            return Gone(photo);
        }

        PointPx[]? outline = what == CorrectionKind.Outline ? [.. (wish.Outline ?? []).Select(corner => new PointPx(corner[0], corner[1]))] : null;
        store.AddCorrection(id, what, reading.Leaves[index].Outline, outline, wish.Who, ByPage);
        return await again.MeasureAsync(id, cancel).ConfigureAwait(false) ? One(store, again, id) : Gone(photo);
    }

    private static Results<NoContent, ProblemHttpResult> Bin(RecordStore store, long id)
        => store.PutInBin(BinKind.Photo, id, ByPage) ? TypedResults.NoContent() : Problem.NotFound("photo");

    private static async Task<Ok<UndoneDocument>> UndoAsync(RecordStore store, PhotoAgain again, ProgressBell bell, CancellationToken cancel, long? change = null)
    {
        UndoneChange? undone = change is { } number ? store.UndoChange(number) : store.UndoLastEdit();
        if (undone is not null && undone.PhotoIds.Count > 0)
        {
            store.TellUploadsAgain(undone.PhotoIds);
            bell.Ring();
        }

        foreach (long photo in store.PhotosToMeasureAgain())
        {
            await again.MeasureAsync(photo, cancel).ConfigureAwait(false);
        }

        return TypedResults.Ok(new UndoneDocument(undone is null ? null : string.Join("; ", undone.Words)));
    }

    /// <summary>The file of a photo has gone: what is on record stays.</summary>
    public static ProblemHttpResult Gone(PhotoOnRecord photo) => Problem.Of(
        StatusCodes.Status404NotFound, $"The photo file is no longer at {photo.PathSeen}.", "Its numbers are safe on record. Put the file back where it was to see the picture or to measure it again.");

    private static CorrectionKind? KindOf(string? word) => word switch
    {
        "notALeaf" => CorrectionKind.NotALeaf,
        "notMites" => CorrectionKind.NotMites,
        "outline" => CorrectionKind.Outline,
        _ => null,
    };

    private static PhotoDocument Whole(RecordStore store, PhotoAgain again, PhotoOnRecord photo)
    {
        PhotoReading reading = store.ReadingOf(photo.Id)!;
        IReadOnlyList<Correction> said = store.CorrectionsOf(photo.Id);
        List<long> walk = [.. store.Photos(photo.WalkId).Select(other => other.Id)];
        int at = walk.IndexOf(photo.Id);
        PhotoLine line = DocumentMaker.Line(photo, store.FiguresOf(photo.Id)!);
        return new PhotoDocument
        {
            Id = photo.Id,
            File = photo.FileName,
            Date = photo.WalkedOn,
            WalkId = photo.WalkId,
            Place = photo.PlaceName,
            PreviousId = at > 0 ? walk[at - 1] : null,
            NextId = at >= 0 && at + 1 < walk.Count ? walk[at + 1] : null,
            PlantId = photo.PlantId,
            PlantCode = photo.PlantCode,
            PlantBy = photo.PlantBy,
            Width = reading.Width,
            Height = reading.Height,
            Taken = reading.Taken,
            Kind = reading.Kind,
            PixelsPerMm = DocumentMaker.Round(reading.PixelsPerMm),
            Word = line.Word,
            InBin = photo.IsInBin,
            HasOverlay = line.HasOverlay,
            LeafLabel = photo.LeafTag,
            LeafAge = line.LeafAge,
            Flags = Flags(reading.Flags),
            Leaves = [.. reading.Leaves.Select((leaf, i) => Of(leaf, i, said))],
            Corrections = Said(store, photo.Id, said),
            WillBeMeasuredAgain = store.PhotosToMeasureAgain().Contains(photo.Id),
            MeasuredBy = photo.Origin.ToolVersion,
            MarksAreNewer = reading.Leaves.Count > 0 && !again.IsCurrent(photo, photo.Origin),
        };
    }

    private static LeafDocument Of(LeafReading leaf, int index, IReadOnlyList<Correction> said)
    {
        Correction? last = said.LastOrDefault(one => !one.IsTakenBack && one.What != CorrectionKind.NotALeaf && OutlineEdit.IsSame(one.Outline ?? one.LeafOutline, leaf.Outline));
        return new LeafDocument
        {
            Index = index,
            Outline = [.. leaf.Outline.Select(corner => new[] { corner.X, corner.Y })],
            Damage = Math.Round(leaf.Damage, 6),
            DamageLow = Math.Round(leaf.DamageLow, 6),
            DamageHigh = Math.Round(leaf.DamageHigh, 6),
            Shares = ReadingRounding.Round(leaf.Shares),
            SpeckCount = leaf.SpeckCount,
            SpeckDensityPerCm2 = DocumentMaker.Round(leaf.SpeckDensityPerCm2),
            AreaMm2 = DocumentMaker.Round(leaf.AreaMm2),
            Causes = leaf.Causes,
            Flags = Flags(leaf.Flags),
            Specks = [.. leaf.SpeckCentres.Select(speck => new[] { speck.X, speck.Y, speck.DiameterPx })],
            Corrected = last is null ? null : last.What == CorrectionKind.Outline ? "outline" : "notMites",
        };
    }

    private static List<FlagDocument> Flags(IReadOnlyList<string> names)
        => [.. names.Select(name => Flag.All.TryGetValue(name, out Flag? flag) ? new FlagDocument(flag.Name, flag.Meaning, flag.Advice) : new FlagDocument(name, name, ""))];

    private static List<CorrectionDocument> Said(RecordStore store, long photoId, IReadOnlyList<Correction> said) =>
    [
        .. said.Select(one => new CorrectionDocument(one.MadeAt, one.Who, one.What switch
        {
            CorrectionKind.NotALeaf => "notALeaf",
            CorrectionKind.NotMites => "notMites",
            _ => "outline",
        }, one.TakenBackAt))
            .Concat(store.EditsOf("photo", photoId)
                .Where(edit => edit.Field is not "plant_by" && !edit.Field.StartsWith("correction ", StringComparison.Ordinal))
                .Select(edit => new CorrectionDocument(edit.EditedAt, null, $"{edit.Field}: {edit.OldValue ?? "none"} to {edit.NewValue ?? "none"}", edit.UndoneAt) { Because = TagMove.BecauseOf(edit.Reason) }))
            .OrderBy(one => one.When),
    ];
}
