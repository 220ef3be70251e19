using LeafScan.Leaves.Views;

namespace LeafScan.Walks.Foliage;

/// <summary>Two photos of a whole plant lined up, or why not.</summary>
/// <param name="EarlierFile">The earlier photo.</param>
/// <param name="EarlierDay">Its day.</param>
/// <param name="LaterFile">The later photo.</param>
/// <param name="LaterDay">Its day.</param>
/// <param name="Change">What has changed; null when they cannot be lined up.</param>
/// <param name="Reason">Why not.</param>
/// <param name="Advice">What to do.</param>
/// <param name="Picture">File with both and the map of change.</param>
public sealed record LinedUpViews(string? EarlierFile, DateOnly? EarlierDay, string? LaterFile, DateOnly? LaterDay, PlantChange? Change, string? Reason, string? Advice, string? Picture)
{
    /// <summary>They cannot.</summary>
    public static LinedUpViews Not(string reason, string advice) => new(null, null, null, null, null, reason, advice, null);
}

/// <summary>When photos were taken that are to be lined up: a month, or a day.</summary>
/// <param name="Words">In words, such as 2026-07.</param>
/// <param name="Holds">Whether a day is in it.</param>
public sealed record ViewTime(string Words, Func<DateOnly, bool> Holds);
