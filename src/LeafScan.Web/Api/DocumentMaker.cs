using System.Globalization;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Records;
using LeafScan.Trends;
using LeafScan.Trends.Verdicts;
using LeafScan.Web.Documents;

namespace LeafScan.Web.Api;

/// <summary>Makes the documents of plants and photos from the record.</summary>
internal static class DocumentMaker
{
    public static PlantLine Line(PlantOverview overview, PlantLastWalk? last, Verdict verdict) => new()
    {
        Id = overview.Plant.Id,
        Code = overview.Plant.Code,
        Place = overview.Plant.PlaceName,
        Name = overview.Plant.Name,
        Species = overview.Plant.Species,
        Cultivar = overview.Plant.Facts.Cultivar,
        Block = overview.Plant.Facts.Block,
        Row = overview.Plant.Facts.Row,
        Position = overview.Plant.Facts.Position,
        Light = overview.Plant.Facts.Light,
        IsCheck = overview.Plant.Facts.IsCheck,
        Walks = overview.WalkCount,
        Photos = overview.PhotoCount,
        LastWalk = last?.WalkedOn,
        Leaves = last?.Leaves.LeafCount ?? 0,
        Damage = Round(last?.Leaves.Damage),
        DamageLow = Round(last?.Leaves.DamageInterval?.Low),
        DamageHigh = Round(last?.Leaves.DamageInterval?.High),
        Verdict = VerdictNames.InDocuments(verdict.Word),
    };

    /// <summary>All of a plant, by readings of one kind.</summary>
    /// <param name="store">The record.</param>
    /// <param name="plant">The plant.</param>
    /// <param name="kind">leaf, twig or plant; null for leaves where it has any, else twigs, else whole plants.</param>
    public static PlantDocument Whole(RecordStore store, Plant plant, string? kind = null)
        => Whole(store, plant, new PlantJudge(store, kind).Judge(plant), store.LeavesOfPlant(plant.Id, kind));

    private static PlantDocument Whole(RecordStore store, Plant plant, Verdict verdict, IReadOnlyList<LeafOnRecord> leaves) => new()
    {
        Id = plant.Id,
        Code = plant.Code,
        Place = plant.PlaceName,
        Name = plant.Name,
        Species = plant.Species,
        Cultivar = plant.Facts.Cultivar,
        Block = plant.Facts.Block,
        Row = plant.Facts.Row,
        Position = plant.Facts.Position,
        Calendar = plant.Facts.Season is { } season ? Lower(season) : null,
        Light = plant.Facts.Light,
        DateIn = plant.Facts.DateIn,
        DamageAtDelivery = plant.Facts.DamageAtDelivery,
        IsCheck = plant.Facts.IsCheck,
        HealthyPhoto = plant.Facts.Healthy?.File,
        HealthySha256 = plant.Facts.Healthy?.Colour.Sha256,
        Kind = leaves.Count > 0 ? leaves[0].Kind : null,
        Kinds = KindsOnRecord.Of(store, plant.Id),
        Verdict = Of(verdict),
        Trend = Of(verdict.Trend),
        Series = [.. SteadyChance.SeriesOf(leaves).Select(Of)],
        Care = [.. store.CareOfPlant(plant.Id).Select(Of)],
        Taps = [.. store.TapsOfPlant(plant.Id).Select(Of)],
        Photos = Lines(store.PhotosOfPlant(plant.Id), store.PhotoFigures(null, plant.Id)),
    };

    public static VerdictDocument Of(Verdict verdict) => new(
        VerdictNames.InDocuments(verdict.Word), VerdictNames.OnScreen(verdict.Word), verdict.Because, verdict.Next,
        [.. verdict.Rivals.Select(rival => new RivalDocument(VerdictNames.InDocuments(rival.Kind), rival.Sentence))], verdict.CareSince,
        verdict.Figures is { CheckPlantCount: > 0, EfficacyBecause: { } because } figures ? new MitesTakenDocument(Round(figures.Efficacy), Round(figures.EfficacyByAbbott), because) : null);

    private static TrendDocument? Of(DamageTrend? trend) => trend is null ? null : new(
        trend.VisitCount, trend.First, trend.Last, VerdictNames.InDocuments(trend.Direction), Round(trend.SlopeAWeek)!.Value, Round(trend.SlopeInterval?.Low), Round(trend.SlopeInterval?.High),
        Round(trend.Chance)!.Value, trend.IsChanceExact, trend.Words);

    public static FiguresDocument Of(LeafFigures figures)
    {
        LeafShares? shares = figures.Shares;
        return new FiguresDocument
        {
            Leaves = figures.LeafCount,
            LeavesLeftOut = figures.LeafCountLeftOut,
            Damage = Round(figures.Damage),
            DamageLow = Round(figures.DamageInterval?.Low),
            DamageHigh = Round(figures.DamageInterval?.High),
            Stippled = Round(shares?.Stippled),
            Yellowed = Round(shares?.Yellowed),
            Browned = Round(shares?.Browned),
            Chewed = Round(shares?.Chewed),
            Affected = figures.AffectedCount,
            AffectedLow = Round(figures.AffectedInterval?.Low),
            AffectedHigh = Round(figures.AffectedInterval?.High),
            Crown = Of(figures.Crown),
            SpecksPerCmOfNeedle = Round(figures.Needles?.SpecksPerCm),
        };
    }

    private static CrownDocument? Of(CrownFigures? crown) => crown is null ? null : new CrownDocument(
        crown.ViewCount, Round(crown.Thinning)!.Value, Round(crown.ThinningInterval.Low)!.Value, Round(crown.ThinningInterval.High)!.Value, crown.WorstSideWords);

    public static SeriesPointDocument Of(SeriesPoint point) => new(Of(point.Leaves), point.WalkedOn, point.WalkId);

    public static CareDocument Of(CareEntry entry) => new(
        entry.Id, entry.DoneOn, Lower(entry.What), entry.Note, entry.Details.At?.ToString("HH:mm", CultureInfo.InvariantCulture), entry.Details.Active,
        entry.Details.ModeGroup, entry.Details.LabelNumber, entry.Details.Target, entry.Details.Conditions);

    public static TapDocument Of(TapOnRecord tap)
        => new(tap.Id, tap.Tap.Day, tap.LiveMites, tap.Tap.MitesByLens, tap.Tap.MitesByPhoto, tap.Tap.SheetId, tap.Tap.Strikes, tap.Tap.Branches, tap.Tap.Predators, tap.Tap.HoursSinceWet, tap.Tap.Note);

    public static List<PhotoLine> Lines(IEnumerable<PhotoOnRecord> photos, IReadOnlyDictionary<long, PhotoFigures> figures)
        => [.. photos.Select(photo => Line(photo, figures[photo.Id]))];

    public static PhotoLine Line(PhotoOnRecord photo, PhotoFigures figures) => new()
    {
        Id = photo.Id,
        Sha256 = photo.Sha256,
        Date = photo.WalkedOn,
        File = photo.FileName,
        Kind = photo.Kind,
        WalkId = photo.WalkId,
        PlantId = photo.PlantId,
        PlantCode = photo.PlantCode,
        PlantBy = photo.PlantBy,
        Leaves = figures.LeafCount,
        Damage = Round(figures.Damage),
        DamageLow = Round(figures.DamageLow),
        DamageHigh = Round(figures.DamageHigh),
        Flags = figures.Flags,
        LeafLabel = photo.LeafTag,
        LeafAge = photo.LeafAge is { } age ? Lower(age) : null,
        HasOverlay = File.Exists(photo.PathSeen),
        Word = PlainWord.Of(figures.Flags, figures.LeafCount),
        Advice = PlainWord.AdviceOf(figures.Flags),
    };

    /// <summary>Six digits are more than any of it can mean.</summary>
    public static double? Round(double? value) => value is { } number ? Math.Round(number, 6) : null;

    public static string Lower<T>(T word)
        where T : struct, Enum => word.ToString().ToLowerInvariant();
}

/// <summary>One plain answer for the person who stands at the plant and could take the photo again.</summary>
internal static class PlainWord
{
    // The first that is set counts: what spoils most comes first.
    private static readonly (Flag Flag, string Word)[] Words =
    [
        (Flag.DamagedFile, "file damaged"), (Flag.Blurred, "too blurred"), (Flag.TooDark, "too dark"), (Flag.TooBright, "too bright"),
        (Flag.LeafTooSmall, "come closer"), (Flag.LeafCutOff, "leaf cut off"), (Flag.Glare, "glare on the leaf"),
    ];

    /// <summary>What to do about the flag that gave the word; null when there is none.</summary>
    public static string? AdviceOf(IReadOnlyList<string> flags) => Words.FirstOrDefault(pair => flags.Contains(pair.Flag.Name)).Flag?.Advice;

    public static string Of(IReadOnlyList<string> flags, int leaves)
        => leaves == 0 ? "no leaf" : Words.FirstOrDefault(pair => flags.Contains(pair.Flag.Name)).Word ?? "good";
}
