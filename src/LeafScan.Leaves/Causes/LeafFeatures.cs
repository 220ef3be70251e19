using LeafScan.Leaves.FineTexture;
using LeafScan.Leaves.Reading;

namespace LeafScan.Leaves.Causes;

/// <summary>The measured features that causes are judged by.</summary>
internal sealed record LeafFeatures
{
    /// <summary>Shares of the leaf.</summary>
    public required LeafShares Shares { get; init; }

    /// <summary>Fine texture, where the leaf has few pixels; null elsewhere.</summary>
    public TextureFeatures? Texture { get; init; }

    /// <summary>Specks were not counted; their share comes from <see cref="Texture"/>.</summary>
    public bool SpecksTooFine { get; init; }

    /// <summary>Number of specks.</summary>
    public required int SpeckCount { get; init; }

    /// <summary>Median diameter of the specks over the leaf's own length, 0 without specks.</summary>
    public required double SpeckDiameterToLeaf { get; init; }

    /// <summary>Brown patches larger than a speck.</summary>
    public required int BrownPatchCount { get; init; }

    /// <summary>Share of the brown area that lies at the margin, 0..1.</summary>
    public required double BrownAtMarginShare { get; init; }

    /// <summary>Share of the yellowed area that has specks within three speck widths, 0..1.</summary>
    public required double YellowNearSpecksShare { get; init; }

    /// <summary>Bites at the margin.</summary>
    public required int BiteCount { get; init; }

    /// <summary>Holes.</summary>
    public required int HoleCount { get; init; }
}
