namespace LeafScan.Records;

/// <summary>What can lie in the bin.</summary>
public enum BinKind
{
    /// <summary>A photo with its readings.</summary>
    Photo,

    /// <summary>A tap.</summary>
    Tap,

    /// <summary>A care entry.</summary>
    Care,
}

/// <summary>Something in the bin: it counts nowhere and can be taken back.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Id">Its number in the store.</param>
/// <param name="Words">What it is in words, such as "IMG_1.jpg" or "rinse".</param>
/// <param name="PlantCode">Its plant; null when unknown.</param>
/// <param name="PlaceName">Its place.</param>
/// <param name="Day">Its day.</param>
/// <param name="DeletedAt">When it was put there.</param>
public sealed record BinEntry(BinKind Kind, long Id, string Words, string? PlantCode, string PlaceName, DateOnly Day, DateTimeOffset DeletedAt);

/// <summary>One change that was undone.</summary>
/// <param name="Words">What went back, one line a field.</param>
/// <param name="Reason">The reason that was given for the change.</param>
/// <param name="EditedAt">When it was made.</param>
public sealed record UndoneChange(IReadOnlyList<string> Words, string Reason, DateTimeOffset EditedAt)
{
    /// <summary>Photos that it touched.</summary>
    public IReadOnlyList<long> PhotoIds { get; init; } = [];
}
