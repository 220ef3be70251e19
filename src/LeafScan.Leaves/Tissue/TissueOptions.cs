namespace LeafScan.Leaves.Tissue;

/// <summary>How tissue is judged.</summary>
public sealed record TissueOptions
{
    /// <summary>
    /// Judge with the learned network where its file is present; true by default. False judges by colour alone against the
    /// leaf's own sound colour, which is also what happens without the file.
    /// </summary>
    public bool Learned { get; init; } = true;

    /// <summary>Longest side of the picture that the network judges, in pixels; 400..2200, 2000 by default. Larger leaves are shrunk.</summary>
    public int LearnedLongSidePx { get; init; } = 2000;

    /// <summary>A leaf shorter than this, in pixels, is enlarged before the network judges it; 360 by default.</summary>
    public int SmallSidePx { get; init; } = 360;

    /// <summary>Length to which a small leaf is enlarged, at most two times; 480 by default.</summary>
    public int EnlargedSidePx { get; init; } = 480;

    /// <summary>
    /// How far the network's score for yellowed tissue must lie above that for sound tissue, as a logarithm of odds, for a pixel to
    /// count as yellowed; 1 by default. At 0 the rim of every patch, fainter than half of its strength, counts too.
    /// </summary>
    public double YellowedLead { get; init; } = 1;

    /// <summary>Smallest score, 0..1, of a peak in the network's centre map that counts as a speck; 0.35 by default.</summary>
    public double SpeckCentreScore { get; init; } = 0.35;

    /// <summary>Smallest score, 0..1, of a peak in the network's centre map that the speck judge looks at; 0.12 by default.</summary>
    public double CandidateCentreScore { get; init; } = 0.12;

    /// <summary>Smallest chance, 0..1, at which the speck judge takes a candidate for a speck; 0.45 by default. Over 1 switches the judge off.</summary>
    public double SpeckChance { get; init; } = 0.45;

    /// <summary>Contrast over noise from which the colour way overrules a network that sees sound tissue; 9 by default.</summary>
    public double SureSignalToNoise { get; init; } = 9;

    /// <summary>Strength from which the colour way overrules the network, 0..1; 0.4 by default. Over 1 switches it off.</summary>
    public double SureStrength { get; init; } = 0.4;

    /// <summary>
    /// Add the specks that a field in which specks have run together must hold; true by default. False counts only those seen
    /// one by one.
    /// </summary>
    public bool SplitMergedFields { get; init; } = true;

    /// <summary>Longest side of the picture in which tissue is judged by colour, in pixels; 400..4000, 2000 by default. Larger leaves are shrunk by area averaging.</summary>
    public int LongSidePx { get; init; } = 2000;

    /// <summary>
    /// How far tissue must have gone from its own sound colour (0) towards bleached leaf (1) to count as yellowed; 0..1,
    /// 0.5 by default: the half-height contour of a fading patch.
    /// </summary>
    public double YellowStrength { get; init; } = 0.5;

    /// <summary>ln(R/G) in linear light above which tissue is brown; 0.08 by default: red outshines green, as in no living green leaf.</summary>
    public double BrownRedToGreen { get; init; } = 0.08;

    /// <summary>How far above the leaf's own ln(R/G) brown must also lie; 0.4 by default. Spares red cultivars.</summary>
    public double BrownAboveOwn { get; init; } = 0.4;

    /// <summary>Contrast of a speck over the noise of the quiet parts of the leaf, at its own size; 4 by default.</summary>
    public double SpeckSignalToNoise { get; init; } = 4;

    /// <summary>Smallest strength of a speck, 0 sound to 1 fully bleached; 0.2 by default.</summary>
    public double SpeckStrength { get; init; } = 0.2;

    /// <summary>Channel level, 0..255, that all three channels must reach for glare; 250 by default.</summary>
    public int GlareLevel { get; init; } = 250;

    /// <summary>Scale at which the network judges a leaf of this length.</summary>
    internal double ScaleFor(int longSidePx)
        => longSidePx > LearnedLongSidePx ? LearnedLongSidePx / (double)longSidePx
            : longSidePx < SmallSidePx ? Math.Min(2.0, EnlargedSidePx / (double)longSidePx)
            : 1;
}
