namespace LeafScan.Records;

/// <summary>A client whose places are looked after.</summary>
/// <param name="Id">Number in the store.</param>
/// <param name="Name">Name as first given; unique without regard to letter case.</param>
public sealed record Client(long Id, string Name);

/// <summary>A client's garden or the nursery.</summary>
/// <param name="Id">Number in the store.</param>
/// <param name="Name">Name as first given; unique without regard to letter case.</param>
/// <param name="ClientName">Client to whom it belongs; null when not told.</param>
public sealed record Place(long Id, string Name, string? ClientName = null);

/// <summary>When in the year the mites of a plant feed.</summary>
public enum MiteSeason
{
    /// <summary>Hot dry summer: twospotted mite, honeylocust mite.</summary>
    Warm,

    /// <summary>Spring and fall: spruce mite, southern red mite.</summary>
    Cool,

    /// <summary>Boxwood mite: late spring to early summer, again in late summer.</summary>
    Boxwood,
}

/// <summary>One plant. Its code is unique within its place: two clients may both have a "B12".</summary>
/// <param name="Id">Number in the store.</param>
/// <param name="PlaceId">Place in which it stands.</param>
/// <param name="Code">Short code, as first given.</param>
/// <param name="Name">What people call it; null when not told.</param>
/// <param name="Species">Botanical name; null when not told.</param>
/// <param name="PlaceName">Name of the place in which it stands.</param>
public sealed record Plant(long Id, long PlaceId, string Code, string? Name, string? Species, string PlaceName)
{
    /// <summary>All else that is known of it.</summary>
    public PlantFacts Facts { get; init; } = new();
}

/// <summary>What a person tells of a plant; null stands for "not told".</summary>
public sealed record PlantFacts
{
    /// <summary>Named variety, such as "Compactus".</summary>
    public string? Cultivar { get; init; }

    /// <summary>Bed, bench or block in which it stands.</summary>
    public string? Block { get; init; }

    /// <summary>Row within the block, as people count it.</summary>
    public string? Row { get; init; }

    /// <summary>Place within the row.</summary>
    public string? Position { get; init; }

    /// <summary>When its mites feed; null to tell it from the species.</summary>
    public MiteSeason? Season { get; init; }

    /// <summary>Light and exposure in words, such as "south wall".</summary>
    public string? Light { get; init; }

    /// <summary>Local calendar day on which it came.</summary>
    public DateOnly? DateIn { get; init; }

    /// <summary>Damage when it came, 0..1.</summary>
    public double? DamageAtDelivery { get; init; }

    /// <summary>Its sound colour off a photo of it in health; null for none.</summary>
    public HealthyOnRecord? Healthy { get; init; }

    /// <summary>Whether it is left untreated on purpose, to compare others with.</summary>
    public bool IsCheck { get; init; }
}

/// <summary>How old a leaf is.</summary>
public enum LeafGrowth
{
    /// <summary>There before this season's late growth.</summary>
    Old,

    /// <summary>Unfolded since the last visits.</summary>
    New,
}

/// <summary>One visit to a place on one day.</summary>
/// <param name="Id">Number in the store.</param>
/// <param name="PlaceId">Place that was visited.</param>
/// <param name="WalkedOn">Local calendar day of the visit.</param>
/// <param name="RecordedAt">When the walk was entered.</param>
public sealed record Walk(long Id, long PlaceId, DateOnly WalkedOn, DateTimeOffset RecordedAt);
