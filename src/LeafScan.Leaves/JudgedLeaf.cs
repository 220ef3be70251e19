using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Chewing;
using LeafScan.Leaves.FineTexture;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Tissue;

namespace LeafScan.Leaves;

/// <summary>One leaf with its outline, its pixels and what its tissue looks like: all that a reading is made from. Owns its parts.</summary>
/// <param name="found">Outline at full size.</param>
/// <param name="patch">Pixels at the scale of judging.</param>
/// <param name="tissue">Tissue at the scale of judging.</param>
internal sealed class JudgedLeaf(FoundLeaf found, LeafPatch patch, TissueMap tissue) : IDisposable
{
    /// <summary>Outline at full size.</summary>
    public FoundLeaf Found { get; } = found;

    /// <summary>Pixels at the scale of judging.</summary>
    public LeafPatch Patch { get; } = patch;

    /// <summary>Tissue at the scale of judging.</summary>
    public TissueMap Tissue { get; } = tissue;

    /// <summary>Fine texture, read on a small copy; null when the leaf is too small even for that.</summary>
    public TextureFeatures? Texture { get; init; }

    /// <summary>The leaf has too few pixels to trust a count of specks; stippling is judged by <see cref="Texture"/>.</summary>
    public bool FewPixels { get; init; }

    /// <summary>What is missing from the leaf; null until it was looked for.</summary>
    public ChewMap? Chewed { get; set; }

    /// <inheritdoc />
    public void Dispose()
    {
        Chewed?.Dispose();
        Found.Dispose();
        Patch.Dispose();
        Tissue.Dispose();
    }
}
