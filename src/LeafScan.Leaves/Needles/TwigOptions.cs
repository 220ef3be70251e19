namespace LeafScan.Leaves.Needles;

/// <summary>How twigs are measured. Sizes are those of the working copy; a photo is never enlarged.</summary>
public sealed record TwigOptions
{
    /// <summary>Long side of the working copy in pixels, 400 to 4000; 1600 by default: a needle is then some 10 pixels wide.</summary>
    public int LongSidePx { get; init; } = 1600;

    /// <summary>Loss of green from which a pixel counts as discoloured, ln units of R/G, 0.1 to 0.6; 0.26 by default. Gold twigs have less to lose: there it is half way to bare yellow tissue.</summary>
    public double DiscolouredFrom { get; init; } = 0.26;

    /// <summary>The same from which a patch counts as yellowed and not as stippled; 0.42 by default.</summary>
    public double YellowedFrom { get; init; } = 0.42;

    /// <summary>ln(R/G) from which discoloured tissue counts as dead and brown; 0.36 by default.</summary>
    public double BrownedFrom { get; init; } = 0.36;

    /// <summary>The network reads the twig and the colour way is its witness; true by default. Without its file, or when false, the colour way works alone.</summary>
    public bool UseNetwork { get; init; } = true;

    /// <summary>Least share of the frame that the twig's foliage fills, 0..1; 0.01 by default.</summary>
    public double LeastShare { get; init; } = 0.01;
}
