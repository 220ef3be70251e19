namespace LeafScan.Records;

/// <summary>A client's garden or the nursery.</summary>
/// <param name="Id">Number in the store.</param>
/// <param name="Name">Name as first given; unique without regard to letter case.</param>
public sealed record Place(long Id, string Name);

/// <summary>One plant. Its code is unique within its place: two clients may both have a "B12".</summary>
/// <param name="Id">Number in the store.</param>
/// <param name="PlaceId">Place in which it stands.</param>
/// <param name="Code">Short code, as first given.</param>
/// <param name="Name">What people call it; null when not told.</param>
/// <param name="Species">Botanical name; null when not told.</param>
/// <param name="PlaceName">Name of the place in which it stands.</param>
public sealed record Plant(long Id, long PlaceId, string Code, string? Name, string? Species, string PlaceName);

/// <summary>One visit to a place on one day.</summary>
/// <param name="Id">Number in the store.</param>
/// <param name="PlaceId">Place that was visited.</param>
/// <param name="WalkedOn">Local calendar day of the visit.</param>
/// <param name="RecordedAt">When the walk was entered.</param>
public sealed record Walk(long Id, long PlaceId, DateOnly WalkedOn, DateTimeOffset RecordedAt);
