namespace LeafScan.Web.Documents;

/// <summary>A tap to keep; the date is today when it is left out. Mites are those counted with a lens; none is 0.</summary>
internal sealed record TapWish
{
    public DateOnly? Date { get; init; }

    /// <summary>Live plant-feeding mites counted by eye or lens; null when not counted so.</summary>
    public int? Mites { get; init; }

    /// <summary>Crawling specks counted on photos elsewhere; with sheetId the sheet's own count goes before it.</summary>
    public int? MitesByPhoto { get; init; }

    /// <summary>Sheet whose photos were read here; its count, as a person put it right, is kept beside that of the lens.</summary>
    public long? SheetId { get; init; }

    public int? Strikes { get; init; }

    public int? Branches { get; init; }

    public int? Predators { get; init; }

    public double? HoursSinceRinse { get; init; }

    public string? Note { get; init; }
}

/// <summary>Two photos of one sheet, sent before, in the order they were taken; without seconds the camera tells the time between them.</summary>
internal sealed record TapPair(string? First, string? Second, double? Seconds = null);

/// <summary>A tap photo that lies here.</summary>
internal sealed record TapPhoto(string Sha256);

/// <summary>What crawled on a sheet, and what a person said of it. Counts of the photos never change; null where the photos allow none.</summary>
internal sealed record TapSheetDocument
{
    public required long Id { get; init; }

    /// <summary>Plant that it was kept with; null while it was not.</summary>
    public required long? PlantId { get; init; }

    public required string? PlantCode { get; init; }

    /// <summary>The tap that it was kept with, with the count by the lens; null while it was not.</summary>
    public required TapDocument? Tap { get; init; }

    /// <summary>Day of the first photo by the camera's clock; null when it does not tell.</summary>
    public required DateOnly? Day { get; init; }

    /// <summary>Size of the first photo, upright, in pixels.</summary>
    public required int Width { get; init; }

    public required int Height { get; init; }

    /// <summary>Specks that crawled, by the photos alone.</summary>
    public required int? Crawling { get; init; }

    /// <summary>Its 90 % interval.</summary>
    public required int? Low { get; init; }

    public required int? High { get; init; }

    /// <summary>Mites after what a person put right: this is kept with the tap. The same as crawling while nobody said anything; null when neither says a number.</summary>
    public required int? Mites { get; init; }

    /// <summary>Predators after what a person put right; fast walkers until somebody says.</summary>
    public required int Predators { get; init; }

    /// <summary>Specks of a mite's size that one photo alone cannot tell from dust.</summary>
    public required int Candidates { get; init; }

    public required int? Debris { get; init; }

    public required int? PossiblePredators { get; init; }

    public required double? Seconds { get; init; }

    public required double? PixelsPerMm { get; init; }

    public required double? SmallestVisibleMm { get; init; }

    public required IReadOnlyList<FlagDocument> Flags { get; init; }

    public required IReadOnlyList<TapSpeckDocument> Specks { get; init; }

    /// <summary>What was said, oldest first, with what was taken back.</summary>
    public required IReadOnlyList<TapSaid> Said { get; init; }

    /// <summary>Address of the first photo with every speck marked, for paper.</summary>
    public required string Overlay { get; init; }
}

/// <summary>A speck. Places are pixels of the first photo.</summary>
internal sealed record TapSpeckDocument
{
    public required double X { get; init; }

    public required double Y { get; init; }

    /// <summary>Where it went; its own place when it lay still.</summary>
    public required double ToX { get; init; }

    public required double ToY { get; init; }

    /// <summary>Diameter in pixels.</summary>
    public required double D { get; init; }

    public required double? DiameterMm { get; init; }

    public required double? MovedMm { get; init; }

    /// <summary>By the photos: debris, crawling, possiblePredator, blown, gone, come or candidate.</summary>
    public required string Fate { get; init; }

    /// <summary>By a person: mite, notMite, predator; null when nobody said anything.</summary>
    public required string? Said { get; init; }

    /// <summary>Whether a person saw it where the photos showed nothing.</summary>
    public required bool Added { get; init; }
}

/// <summary>Something a person said of a place on the sheet.</summary>
internal sealed record TapSaid(DateTimeOffset When, string? Who, string Said, double X, double Y, DateTimeOffset? TakenBack);

/// <summary>What a person says of a place on the sheet: mite, notMite or predator.</summary>
internal sealed record SpeckWish(double? X, double? Y, string? Said, string? Who);
