using LeafScan.Leaves.FineTexture;
using LeafScan.Leaves.Reading;

namespace LeafScan.Leaves.Causes;

/// <summary>The measured features that causes are judged by.</summary>
internal sealed record LeafFeatures
{
    /// <summary>Shares of the leaf; all 0 until they are known.</summary>
    public LeafShares Shares { get; init; } = new(0, 0, 0, 0, 0, 0);

    /// <summary>Fine texture; null when the leaf is too small even for that.</summary>
    public TextureFeatures? Texture { get; init; }

    /// <summary>The leaf has too few pixels to trust a count of specks; stippling is judged by <see cref="Texture"/>.</summary>
    public bool FewPixels { get; init; }

    /// <summary>How the specks are strewn.</summary>
    public required SpeckPattern Specks { get; init; }

    /// <summary>How the yellow lies.</summary>
    public required YellowPattern Yellow { get; init; }

    /// <summary>Brown patches.</summary>
    public required BrownPattern Brown { get; init; }

    /// <summary>Bites at the margin.</summary>
    public int BiteCount { get; init; }

    /// <summary>Holes.</summary>
    public int HoleCount { get; init; }
}

/// <summary>How the specks are strewn over the leaf.</summary>
/// <param name="Count">Number of specks.</param>
/// <param name="DiameterToLeaf">Median diameter over the leaf's length; 0 without specks.</param>
/// <param name="AtMidribTimes">Specks along the midrib (the middle fifth of the leaf's width) over what an even strewing gives: 1 even, 2 twice as many. 0 without specks.</param>
/// <param name="AtBrownShare">Share of the specks that touch brown tissue, 0..1: paler rims of spots rather than feeding marks.</param>
/// <param name="DarkDotCount">Small dark dots, smaller than three specks, lying among the specks: droppings would look like this.</param>
internal sealed record SpeckPattern(int Count, double DiameterToLeaf, double AtMidribTimes, double AtBrownShare, int DarkDotCount);

/// <summary>How the yellow lies on the leaf.</summary>
/// <param name="NearSpecksShare">Share of the yellow within three speck widths of a speck, 0..1.</param>
/// <param name="NearBrownShare">Share of the yellow that touches brown patches, 0..1: rings about spots.</param>
/// <param name="GreenLinesShare">Thin green lines (veins) between the yellow, as a share of both together, 0..1.</param>
/// <param name="PatchCount">Separate yellow patches.</param>
internal sealed record YellowPattern(double NearSpecksShare, double NearBrownShare, double GreenLinesShare, int PatchCount);

/// <summary>Brown patches.</summary>
/// <param name="Count">Patches larger than a speck.</param>
/// <param name="SizeToLeaf">Median width of a patch over the leaf's length; 0 without patches.</param>
/// <param name="AtMarginShare">Share of the brown that lies at the margin, 0..1.</param>
/// <param name="HaloShare">Share of the rim about the patches that is yellowed or pale, 0..1.</param>
internal sealed record BrownPattern(int Count, double SizeToLeaf, double AtMarginShare, double HaloShare);
