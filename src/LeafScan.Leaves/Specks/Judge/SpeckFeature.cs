namespace LeafScan.Leaves.Specks.Judge;

/// <summary>
/// What the speck judge is told of one candidate, in this order. Contrasts are disc minus ring; leads are differences of the
/// network's raw scores (logarithms of odds); lengths are patch pixels; leaf values are the same for all candidates of a leaf.
/// </summary>
internal enum SpeckFeature
{
    /// <summary>Score in the network's centre map, 0..1; 0 where only colour saw it.</summary>
    CentreScore,

    /// <summary>Speck over sound at the centre.</summary>
    SpeckLead,

    /// <summary>Speck over sound, mean of the disc.</summary>
    SpeckLeadDisc,

    /// <summary>Speck over sound, mean of the ring.</summary>
    SpeckLeadRing,

    /// <summary>Yellowed over sound at the centre.</summary>
    YellowLead,

    /// <summary>Browned over sound at the centre.</summary>
    BrownLead,

    /// <summary>Background over sound at the centre.</summary>
    BackgroundLead,

    /// <summary>Share of the disc that the network coded as speck.</summary>
    CodedShare,

    /// <summary>Diameter.</summary>
    Diameter,

    /// <summary>Diameter over the median of the leaf's candidates.</summary>
    DiameterToMedian,

    /// <summary>Diameter of the colour filter that answers best here.</summary>
    FilterDiameter,

    /// <summary>Contrast in L*.</summary>
    LightnessContrast,

    /// <summary>Contrast in a*.</summary>
    RedContrast,

    /// <summary>Contrast in b*.</summary>
    YellowContrast,

    /// <summary>Contrast in bleach strength.</summary>
    StrengthContrast,

    /// <summary>Contrast in red, linear light.</summary>
    RedLight,

    /// <summary>Contrast in green over that in red: near 1 for white light laid over the leaf, far less where green is lost.</summary>
    GreenToRed,

    /// <summary>Contrast in blue over that in red.</summary>
    BlueToRed,

    /// <summary>L* of the middle.</summary>
    CentreLightness,

    /// <summary>Chroma of the middle.</summary>
    CentreChroma,

    /// <summary>Contrast of the middle in green over that in red.</summary>
    CentreGreenToRed,

    /// <summary>Contrast of the middle in blue over that in red.</summary>
    CentreBlueToRed,

    /// <summary>Bleach strength at the centre.</summary>
    Strength,

    /// <summary>L* of the disc.</summary>
    DiscLightness,

    /// <summary>Chroma of the disc.</summary>
    DiscChroma,

    /// <summary>Standard deviation of L* in the ring.</summary>
    RingSpread,

    /// <summary>Contrast in L* over that deviation.</summary>
    LightnessToSpread,

    /// <summary>Signal over noise of the colour way, highest of 3 x 3 pixels.</summary>
    SignalToNoise,

    /// <summary>Response of the colour way, highest of 3 x 3 pixels.</summary>
    Amplitude,

    /// <summary>Smallest over largest fall of strength in four directions: 1 a dot, near 0 a ridge.</summary>
    Roundness,

    /// <summary>The same for L*.</summary>
    LightnessRoundness,

    /// <summary>Smallest fall of L* in four directions.</summary>
    LeastFall,

    /// <summary>Distance to the next candidate over the diameter.</summary>
    NextOverDiameter,

    /// <summary>Distance to the next candidate with a higher centre score over the diameter, at most 9.</summary>
    StrongerOverDiameter,

    /// <summary>Candidates within 24 pixels.</summary>
    Neighbours,

    /// <summary>Mean centre score of the candidates within 24 pixels.</summary>
    NeighbourScore,

    /// <summary>Distance to the margin.</summary>
    ToMargin,

    /// <summary>Distance to the margin over the root of the leaf's area.</summary>
    ToMarginOfLeaf,

    /// <summary>Seen by the network 1, by colour 2, by both 3.</summary>
    Source,

    /// <summary>Share of the leaf's candidates that have a lower centre score.</summary>
    ScoreRank,

    /// <summary>Contrast in L* over the median of the leaf's candidates.</summary>
    ContrastToMedian,

    /// <summary>Leaf: root of the area.</summary>
    LeafSide,

    /// <summary>Leaf: candidates per 10,000 pixels.</summary>
    LeafDensity,

    /// <summary>Leaf: share that the network coded as speck.</summary>
    LeafSpeckShare,

    /// <summary>Leaf: share that the network coded as yellowed.</summary>
    LeafYellowShare,

    /// <summary>Leaf: median centre score of what the network saw.</summary>
    LeafScoreMedian,

    /// <summary>Leaf: 90th percentile of that score.</summary>
    LeafScoreHigh,

    /// <summary>Leaf: share of the candidates with a centre score of 0.35 or more.</summary>
    LeafScoreShare,

    /// <summary>Leaf: median contrast in L*.</summary>
    LeafContrastMedian,

    /// <summary>Leaf: 90th percentile of the contrast in L*.</summary>
    LeafContrastHigh,

    /// <summary>Leaf: median contrast in strength.</summary>
    LeafStrengthMedian,

    /// <summary>Leaf: median contrast in green over that in red.</summary>
    LeafGreenToRed,

    /// <summary>Leaf: median contrast in blue over that in red.</summary>
    LeafBlueToRed,

    /// <summary>Leaf: median signal over noise.</summary>
    LeafSignalMedian,

    /// <summary>Leaf: 90th percentile of signal over noise.</summary>
    LeafSignalHigh,

    /// <summary>Leaf: share of the candidates that both ways saw.</summary>
    LeafBothShare,

    /// <summary>Leaf: median diameter.</summary>
    LeafDiameterMedian,

    /// <summary>Leaf: mean L*.</summary>
    LeafLightness,

    /// <summary>Leaf: mean a*.</summary>
    LeafRed,

    /// <summary>Leaf: mean b*.</summary>
    LeafYellow,

    /// <summary>Leaf: median deviation of L* in the rings.</summary>
    LeafTexture,
}
