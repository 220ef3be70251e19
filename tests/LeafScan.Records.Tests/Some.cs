using System.Globalization;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Records.Upkeep;

namespace LeafScan.Records.Tests;

/// <summary>Builds valid things, so that a test shows only what matters.</summary>
internal static class Some
{
    public static readonly DateOnly Day = new(2026, 6, 3);

    public static readonly ReadingOrigin Origin = new("0.1.0", "0123456789abcdef");

    public static string Sha(int number) => number.ToString("x64", CultureInfo.InvariantCulture);

    public static LeafReading Leaf(double stippled = 0.1, IReadOnlyList<string>? flags = null) => new()
    {
        Outline = [new PointPx(0, 0), new PointPx(100, 0), new PointPx(60, 50)],
        AreaPx = 2500,
        Shares = new LeafShares(1 - stippled - 0.05, stippled, 0.03, 0.01, 0.01, 0),
        Damage = Math.Round((stippled + 0.04) / 0.99, 6),
        DamageLow = 0,
        DamageHigh = 1,
        SpeckCount = 2,
        SpeckDiameterMedianPx = 7.1,
        SpeckCentres = [new SpeckMark(10.25, 11.5, 7), new SpeckMark(20, 12, 7.2)],
        Causes = [new LeafCause("miteStippling", 0.9, ["many pale specks", "a “quoted” reason"])],
        Flags = flags ?? [],
    };

    /// <summary>A whole plant: gaps, sides and fall colour, no specks.</summary>
    public static LeafReading WholePlant(double thinning = 0.12, string worstSide = "left") => Leaf(0) with
    {
        SpeckCount = 0,
        SpeckDiameterMedianPx = 0,
        SpeckCentres = [],
        Greenness = 0.4711,
        NewGrowth = 0.03,
        HealthyPhoto = new string('b', 64),
        Crown = new CrownReading
        {
            Thinning = thinning,
            ThinningLow = thinning / 2,
            ThinningHigh = thinning * 1.5,
            WorstSide = worstSide,
            WorstHeight = "low",
            FallColour = 0.02,
            Sectors = [new CrownSector("left", "high", 0.1, 0.2, 0.5), new CrownSector("right", "high", null, 1, null)],
        },
    };

    /// <summary>A twig whose two specks lie on 4 mm of needles, all judged.</summary>
    public static LeafReading Twig() => Leaf() with { SpeckCentres = [new SpeckMark(10, 11.5, 7), new SpeckMark(20, 12, 7.2)], Greenness = 0.5, NewGrowth = 0, AreaMm2 = 25, NeedleLengthMm = 4, SpecksPerCmOfNeedle = 5 };

    /// <summary>A photo of a twig or a whole plant.</summary>
    public static NewPhoto Foliage(long walkId, int number, string plant, string kind, params LeafReading[] leaves)
    {
        NewPhoto photo = Photo(walkId, number, plant, leaves);
        return photo with { Reading = photo.Reading with { Kind = kind, PixelsPerMm = kind == "twig" ? 10 : null } };
    }

    public static PhotoReading Reading(int number, params LeafReading[] leaves) => new()
    {
        File = $"IMG_{number}.jpg",
        Sha256 = Sha(number),
        Width = 4000,
        Height = 3000,
        Kind = "leaf",
        Flags = [Flag.NoScale.Name],
        Leaves = leaves.Length == 0 ? [Leaf()] : leaves,
    };

    public static NewPhoto Photo(long walkId, int number, string? plant = "B12", params LeafReading[] leaves) => new()
    {
        WalkId = walkId,
        Facts = new PhotoFacts
        {
            FileName = $"IMG_{number}.jpg",
            Path = $"/photos/IMG_{number}.jpg",
            Sha256 = Sha(number),
            ByteLength = 1234,
            Format = PhotoFormat.Jpeg,
            WidthPx = 4000,
            HeightPx = 3000,
            Taken = new CaptureTime(new DateTime(2026, 6, 3, 9, 14, 0), TimeSpan.FromHours(-4)),
        },
        Reading = Reading(number, leaves),
        Origin = Origin,
        Plant = plant is null ? new PlantGuess(null, PlantSource.Unknown, "") : new PlantGuess(plant, PlantSource.ByFolder, ""),
    };
}

/// <summary>A clock that stands until it is moved.</summary>
internal sealed class StandingClock : TimeProvider
{
    public DateTimeOffset Now { get; set; } = new(2026, 6, 3, 13, 14, 0, TimeSpan.Zero);

    public override DateTimeOffset GetUtcNow() => Now;
}

/// <summary>A data folder of its own, gone after the test.</summary>
internal sealed class ScratchFolder : IDisposable
{
    public string FolderPath { get; } = Directory.CreateTempSubdirectory("leafscan-records-").FullName;

    public StandingClock Clock { get; } = new();

    public string StoreFile => Path.Combine(FolderPath, RecordStore.FileName);

    public RecordStore Open(RecordOptions? options = null) => RecordStore.Open(FolderPath, Clock, options);

    public RecordStore OpenWith(params Migration[] migrations) => RecordStore.Open(FolderPath, Clock, new RecordOptions { AutomaticBackupsKept = 2 }, migrations);

    public void Dispose() => Directory.Delete(FolderPath, recursive: true);
}
