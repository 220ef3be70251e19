namespace LeafScan.Leaves.Chewing;

/// <summary>How missing leaf is told from the leaf's own shape.</summary>
public sealed record ChewOptions
{
    /// <summary>Smallest bite or hole, as a share of the leaf's area; 0.0002 by default.</summary>
    public double SmallestShare { get; init; } = 0.0002;

    /// <summary>
    /// Turn of a smooth margin, in degrees, at both ends of a dent that makes it a bite; 35 by default. Lobes and wavy margins
    /// bend smoothly, a bite leaves corners.
    /// </summary>
    public double CornerDegrees { get; init; } = 35;

    /// <summary>From this many notches on a margin counts as toothed, and a bite must be far more than the notches around it; 9 by default.</summary>
    public int TeethFrom { get; init; } = 9;

    /// <summary>Depth of a dent over its mouth from which it can be a bite of a smooth margin; 0.2 by default.</summary>
    public double DepthToMouth { get; init; } = 0.2;
}
