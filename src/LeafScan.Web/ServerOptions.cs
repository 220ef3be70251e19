using LeafScan.Photos;

namespace LeafScan.Web;

/// <summary>How the page is served.</summary>
public sealed record ServerOptions
{
    /// <summary>Port when none is given.</summary>
    public const int UsualPort = 8470;

    /// <summary>Port, 1 to 65535; 0 takes any that is free.</summary>
    public int Port { get; init; } = UsualPort;

    /// <summary>Whether other machines of the network may open the page, with a pairing code; false by default.</summary>
    public bool Lan { get; init; }

    /// <summary>Names and addresses of this machine under which phones may open the page; only looked at with <see cref="Lan"/>.</summary>
    public IReadOnlyList<string> LanNames { get; init; } = [];

    /// <summary>What of a sent photo is refused before anything is decoded.</summary>
    public PhotoLimits Photos { get; init; } = new();

    /// <summary>Most bytes of drawn pictures that are kept to be shown again; 2 GB by default. Beyond it those go that were not looked at for longest.</summary>
    public long DrawnMostBytes { get; init; } = 2_000_000_000;

    /// <summary>The clock.</summary>
    public TimeProvider Clock { get; init; } = TimeProvider.System;

    /// <summary>Takes the details of a fault of our own and says where they are; null when nowhere.</summary>
    public Func<Exception, string?> Log { get; init; } = _ => null;
}
