namespace LeafScan.Leaves.Chewing;

/// <summary>How missing leaf is told from the leaf's own shape.</summary>
public sealed record ChewOptions
{
    /// <summary>Smallest bite or hole, as a share of the leaf's area; 0.0002 by default.</summary>
    public double SmallestShare { get; init; } = 0.0002;

    /// <summary>From this many notches on a margin counts as toothed, and a bite must be far more than the notches around it; 9 by default.</summary>
    public int TeethFrom { get; init; } = 9;

    /// <summary>
    /// From how much evidence on a dent of the margin counts as a bite, as a logarithm of odds; 0 by default. More makes
    /// fewer false bites in lobed leaves and misses shallow bites.
    /// </summary>
    public double LeastEvidence { get; init; }
}
