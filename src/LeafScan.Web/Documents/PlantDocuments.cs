using System.Diagnostics.CodeAnalysis;

namespace LeafScan.Web.Documents;

/// <summary>A plant in the list of plants. Damage is that of its last walk, 0 to 1, with its 90 % interval.</summary>
internal sealed record PlantLine
{
    public required long Id { get; init; }

    public required string Code { get; init; }

    public required string Place { get; init; }

    public required string? Name { get; init; }

    public required string? Species { get; init; }

    public required string? Cultivar { get; init; }

    public required string? Block { get; init; }

    public required string? Row { get; init; }

    public required string? Position { get; init; }

    public required string? Light { get; init; }

    public required bool IsCheck { get; init; }

    public required int Walks { get; init; }

    public required int Photos { get; init; }

    public required DateOnly? LastWalk { get; init; }

    public required int Leaves { get; init; }

    public required double? Damage { get; init; }

    public required double? DamageLow { get; init; }

    public required double? DamageHigh { get; init; }

    /// <summary>working, notWorking, tooEarly, cannotTell, newDamage or noNewDamage.</summary>
    public required string Verdict { get; init; }
}

/// <summary>All that is known of one plant.</summary>
internal sealed record PlantDocument
{
    public required long Id { get; init; }

    public required string Code { get; init; }

    public required string Place { get; init; }

    public required string? Name { get; init; }

    public required string? Species { get; init; }

    public required string? Cultivar { get; init; }

    public required string? Block { get; init; }

    public required string? Row { get; init; }

    public required string? Position { get; init; }

    /// <summary>When its mites feed: warm, cool or boxwood; null to tell it from the species.</summary>
    public required string? Calendar { get; init; }

    public required string? Light { get; init; }

    public required DateOnly? DateIn { get; init; }

    public required double? DamageAtDelivery { get; init; }

    public required bool IsCheck { get; init; }

    /// <summary>Name of the photo of it in health against which twigs and whole plants are measured; null for none.</summary>
    public required string? HealthyPhoto { get; init; }

    /// <summary>Fingerprint of that photo, by which it is found among the plant's own; null for none.</summary>
    public required string? HealthySha256 { get; init; }

    /// <summary>What series, trend and verdict are of: leaf, twig or plant; null where nothing was measured.</summary>
    public required string? Kind { get; init; }

    /// <summary>Kinds of readings it has.</summary>
    public required IReadOnlyList<string> Kinds { get; init; }

    public required VerdictDocument Verdict { get; init; }

    /// <summary>One point a walk, oldest first.</summary>
    public required IReadOnlyList<SeriesPointDocument> Series { get; init; }

    /// <summary>Direction of its damage over the visits; null with too few of them.</summary>
    public required TrendDocument? Trend { get; init; }

    public required IReadOnlyList<CareDocument> Care { get; init; }

    public required IReadOnlyList<TapDocument> Taps { get; init; }

    /// <summary>Its photos, oldest first.</summary>
    public required IReadOnlyList<PhotoLine> Photos { get; init; }
}

/// <summary>What the series says.</summary>
/// <param name="Word">working, notWorking, tooEarly, cannotTell, newDamage or noNewDamage.</param>
/// <param name="Words">The same for people.</param>
/// <param name="Because">Reasons, one sentence each.</param>
/// <param name="Next">The next useful step.</param>
/// <param name="Rivals">What else could have made the figures.</param>
/// <param name="CareSince">Day of the first care entry that is judged; null when nothing was done.</param>
/// <param name="MitesTaken">What the care took of the live mites, against untreated plants; null without any.</param>
internal sealed record VerdictDocument(
    string Word, string Words, IReadOnlyList<string> Because, string Next, IReadOnlyList<RivalDocument> Rivals, DateOnly? CareSince, MitesTakenDocument? MitesTaken);

/// <summary>Shares of live mites that the care took, up to 1, below 0 when it did worse; null where the formula does not apply.</summary>
/// <param name="ByHendersonTilton">From counts before and since on both sides; by Sun and Shepard's form it is the same.</param>
/// <param name="ByAbbott">From counts since alone, for plants that began alike.</param>
/// <param name="Because">Which applies, and why the others do not.</param>
internal sealed record MitesTakenDocument(double? ByHendersonTilton, double? ByAbbott, string Because);

/// <summary>Direction of a plant's damage over its visits, new growth left out. It never says that care works.</summary>
/// <param name="Visits">Visits, at least five.</param>
/// <param name="First">Day of the first.</param>
/// <param name="Last">Day of the last.</param>
/// <param name="Direction">rising, falling or noneSure.</param>
/// <param name="GainAWeek">Change of mean damage a week, as a share.</param>
/// <param name="GainLow">Lower end of its 90 % interval.</param>
/// <param name="GainHigh">Upper end.</param>
/// <param name="Chance">Two-sided probability of so clear a direction without a trend.</param>
/// <param name="Exact">Whether it is exact.</param>
/// <param name="Words">The same in sentences.</param>
internal sealed record TrendDocument(
    int Visits, DateOnly First, DateOnly Last, string Direction, double GainAWeek, double? GainLow, double? GainHigh, double Chance, bool Exact, string Words);

/// <summary>Another explanation.</summary>
internal sealed record RivalDocument(string Kind, string Sentence);

/// <summary>Figures of one plant's leaves together; null where no leaf counts. Shares 0 to 1.</summary>
internal record FiguresDocument
{
    public required int Leaves { get; init; }

    /// <summary>Leaves that hardly could be judged, or of a damaged file.</summary>
    public required int LeavesLeftOut { get; init; }

    public required double? Damage { get; init; }

    public required double? DamageLow { get; init; }

    public required double? DamageHigh { get; init; }

    public required double? Stippled { get; init; }

    public required double? Yellowed { get; init; }

    public required double? Browned { get; init; }

    public required double? Chewed { get; init; }

    /// <summary>Leaves with damage to speak of.</summary>
    public required int Affected { get; init; }

    public required double? AffectedLow { get; init; }

    public required double? AffectedHigh { get; init; }

    /// <summary>Gaps and sides of whole-plant photos; null without any.</summary>
    public required CrownDocument? Crown { get; init; }

    /// <summary>Specks per cm of needle, mean over twigs, a lower bound; null without any.</summary>
    public required double? SpecksPerCmOfNeedle { get; init; }
}

/// <summary>Gaps in the crown, a share 0 to 1 with its 90 % range, and the worst side of the photos.</summary>
/// <param name="Views">Photos.</param>
/// <param name="Thinning">Mean share of the crown that is gap.</param>
/// <param name="ThinningLow">Lower end.</param>
/// <param name="ThinningHigh">Upper end.</param>
/// <param name="WorstSide">left, right or none, those of the photo; of several photos how many say so, "left 2 of 3".</param>
internal sealed record CrownDocument(int Views, double Thinning, double ThinningLow, double ThinningHigh, string WorstSide);

/// <summary>One walk in the series of a plant.</summary>
internal sealed record SeriesPointDocument : FiguresDocument
{
    [SetsRequiredMembers]
    public SeriesPointDocument(FiguresDocument figures, DateOnly date, long walkId)
        : base(figures) => (Date, WalkId) = (date, walkId);

    public DateOnly Date { get; }

    public long WalkId { get; }
}

/// <summary>A care entry; what was done is rinse, soap, oil, predators, miticide, pruning or nothing.</summary>
internal sealed record CareDocument(
    long Id, DateOnly Date, string What, string? Note, string? At, string? Active, string? ModeGroup, string? LabelNumber, string? Against, string? Conditions);

/// <summary>A tap; its mites are the count that stands: with the lens where there is one, else on photos.</summary>
internal sealed record TapDocument(
    long Id, DateOnly Date, int Mites, int? MitesByLens, int? MitesByPhoto, long? SheetId, int? Strikes, int? Branches, int? Predators, double? HoursSinceRinse, string? Note);

/// <summary>A photo in a list.</summary>
internal sealed record PhotoLine
{
    public required long Id { get; init; }

    public required string Sha256 { get; init; }

    public required DateOnly Date { get; init; }

    public required string File { get; init; }

    /// <summary>What it shows: leaf, twig or plant; tag for a photo of a tag.</summary>
    public required string Kind { get; init; }

    public required long WalkId { get; init; }

    public required long? PlantId { get; init; }

    public required string? PlantCode { get; init; }

    /// <summary>byFolder, byFileName, byTag, byHand or unknown.</summary>
    public required string PlantBy { get; init; }

    public required int Leaves { get; init; }

    public required double? Damage { get; init; }

    public required double? DamageLow { get; init; }

    public required double? DamageHigh { get; init; }

    public required IReadOnlyList<string> Flags { get; init; }

    /// <summary>Label of a leaf that is photographed again on each walk.</summary>
    public required string? LeafLabel { get; init; }

    /// <summary>old, new or null.</summary>
    public required string? LeafAge { get; init; }

    /// <summary>Whether the photo's file is there, so that picture and overlay can be drawn.</summary>
    public required bool HasOverlay { get; init; }

    /// <summary>One plain answer for the person at the plant: good, or what to do better.</summary>
    public required string Word { get; init; }

    /// <summary>What to do better, one sentence; null when it is good.</summary>
    public required string? Advice { get; init; }
}

/// <summary>One of the plant's own photos that shall stand for its health.</summary>
/// <param name="PhotoId">A twig or whole plant.</param>
internal sealed record HealthyWrite(long PhotoId);

/// <summary>Against which photo twigs and whole plants are measured from now on.</summary>
/// <param name="HealthyPhoto">Its name; null for none.</param>
/// <param name="Remarks">What speaks against it although it was taken, and what does not change; whole sentences.</param>
internal sealed record HealthyDocument(string? HealthyPhoto, IReadOnlyList<string> Remarks);

/// <summary>Two photos of a whole plant lined up, or why not; as views in the document of the command compare.</summary>
internal sealed record ViewsDocument
{
    public required bool LinedUp { get; init; }

    /// <summary>Why not; null when lined up.</summary>
    public required string? Reason { get; init; }

    public required string? Advice { get; init; }

    public required string? Earlier { get; init; }

    public required DateOnly? EarlierDay { get; init; }

    public required string? Later { get; init; }

    public required DateOnly? LaterDay { get; init; }

    /// <summary>Features that agree on how the photos lie over one another.</summary>
    public required int? AgreeingPlaces { get; init; }

    /// <summary>Change of the discoloured share of the foliage, -1 to 1; more is positive.</summary>
    public required double? Discoloured { get; init; }

    /// <summary>Change of the share of the crown that is gap.</summary>
    public required double? Thinning { get; init; }

    /// <summary>Change of the dark green colour index.</summary>
    public required double? Greenness { get; init; }

    /// <summary>The same of each sixth; null when not lined up.</summary>
    public required IReadOnlyList<ViewSectorDocument>? Sectors { get; init; }

    /// <summary>Change by which two photos of an unchanged plant differ, a share.</summary>
    public required double SameWithin { get; init; }
}

/// <summary>Change of one sixth of a plant; left and right are those of the earlier photo. The word is worse, better or same.</summary>
internal sealed record ViewSectorDocument(string Side, string Height, double? Discoloured, double Thinning, double? Greenness, string Change);

/// <summary>What a person tells of a plant. A field that is left out stays as it is; an empty text clears it.</summary>
internal sealed record PlantWrite
{
    /// <summary>Needed for a new plant; cannot be changed later.</summary>
    public string? Code { get; init; }

    /// <summary>Needed for a new plant; cannot be changed later.</summary>
    public string? Place { get; init; }

    public string? Name { get; init; }

    public string? Species { get; init; }

    public string? Cultivar { get; init; }

    public string? Block { get; init; }

    public string? Row { get; init; }

    public string? Position { get; init; }

    /// <summary>warm, cool or boxwood; an empty text tells it from the species.</summary>
    public string? Calendar { get; init; }

    public string? Light { get; init; }

    public DateOnly? DateIn { get; init; }

    public double? DamageAtDelivery { get; init; }

    public bool? IsCheck { get; init; }
}
