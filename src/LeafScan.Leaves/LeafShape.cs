using System.Diagnostics;
using LeafScan.Leaves.Chewing;
using LeafScan.Leaves.FineTexture;
using LeafScan.Leaves.Outline;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves;

/// <summary>
/// What can be told of a leaf as soon as its outline is known: what was chewed away, and its fine texture. Neither waits for the tissue, so
/// both are worked out while the network looks at it (docs/decisions/049). Owns the look at its texture.
/// </summary>
internal sealed class LeafShape(ChewMap chewed, TextureLook texture) : IDisposable
{
    /// <summary>What is missing; whoever takes it disposes it.</summary>
    public ChewMap Chewed { get; } = chewed;

    /// <summary>Its fine texture.</summary>
    public TextureLook Texture { get; } = texture;

    /// <summary>Looks at one leaf.</summary>
    /// <param name="bgr">The photo, 8-bit B, G, R, full size.</param>
    /// <param name="found">The outline.</param>
    /// <param name="options">How to measure.</param>
    public static LeafShape Of(Mat bgr, FoundLeaf found, MeasureOptions options)
    {
        TextureLook texture = TextureLook.At(bgr, found, options.FineTexture);
        try
        {
            return new LeafShape(Missing(found.Mask, options.Chewing), texture);
        }
        catch
        {
            texture.Dispose();
            throw;
        }
    }

    /// <summary>What is missing from a leaf.</summary>
    /// <param name="mask">255 leaf that is there, 0 elsewhere.</param>
    /// <param name="options">How to look.</param>
    public static ChewMap Missing(Mat mask, ChewOptions options)
    {
        using Activity? step = Steps.Begin("chewing");
        return ChewFinder.Find(mask, options);
    }

    /// <inheritdoc />
    public void Dispose() => Texture.Dispose();
}
