namespace LeafScan.Leaves.Outline;

/// <summary>The leaves of a photo, or why there are none. Owns its leaves.</summary>
public sealed class OutlineResult : IDisposable
{
    /// <summary>Leaves, largest first; empty when none was found.</summary>
    public IReadOnlyList<FoundLeaf> Leaves { get; init; } = [];

    /// <summary>One sentence that says why no leaf was found; null when there are leaves.</summary>
    public string? WhyNone { get; init; }

    /// <summary>What to do about it, one sentence; null when there are leaves.</summary>
    public string? Advice { get; init; }

    /// <inheritdoc />
    public void Dispose()
    {
        foreach (FoundLeaf leaf in Leaves)
        {
            leaf.Dispose();
        }
    }
}
