namespace LeafScan.Leaves.Outline;

/// <summary>What the search gave: leaves, or the reason why there are none. Owns its leaves.</summary>
public sealed class OutlineResult : IDisposable
{
    /// <summary>The leaves, largest first; empty when there are none.</summary>
    public IReadOnlyList<FoundLeaf> Leaves { get; init; } = [];

    /// <summary>The leaves lie on a plain sheet.</summary>
    public bool OnSheet { get; init; }

    /// <summary>One sentence when there are no leaves.</summary>
    public string? WhyNone { get; init; }

    /// <summary>What to do then.</summary>
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
