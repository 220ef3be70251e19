namespace LeafScan.Leaves.WholePlant;

/// <summary>How whole plants are measured. Sizes are those of the working copy; a photo is never enlarged.</summary>
public sealed record CrownOptions
{
    /// <summary>Long side of the working copy in pixels, 400 to 3000; 1200 by default.</summary>
    public int LongSidePx { get; init; } = 1200;

    /// <summary>
    /// Loss of green from which foliage counts as discoloured, ln units of R/G, 0.1 to 0.8; 0.4 by default. It is half way
    /// from the plant's own colour to bare yellow tissue where that is less.
    /// </summary>
    public double DiscolouredFrom { get; init; } = 0.4;

    /// <summary>ln(R/G) from which discoloured foliage counts as dead and brown, at least; 0.3 by default.</summary>
    public double BrownedFrom { get; init; } = 0.3;

    /// <summary>The network reads the plant and the colour way is its witness; true by default. Without its file, or when false, the colour way works alone.</summary>
    public bool UseNetwork { get; init; } = true;

    /// <summary>Least share of the frame that the plant fills, 0..1; 0.02 by default.</summary>
    public double LeastShare { get; init; } = 0.02;
}
