using OpenCvSharp;

namespace LeafScan.Leaves.FineTexture;

/// <summary>The texture of one leaf and where its pale marks lie. Owns its picture.</summary>
/// <param name="features">The figures.</param>
/// <param name="pale">32-bit float, any size, over the leaf's patch: how strong a pale mark is, 0 where there is none.</param>
internal sealed class TextureReading(TextureFeatures features, Mat pale) : IDisposable
{
    /// <summary>The figures.</summary>
    public TextureFeatures Features { get; } = features;

    /// <summary>Strength of the pale marks.</summary>
    public Mat Pale { get; } = pale;

    /// <inheritdoc />
    public void Dispose() => Pale.Dispose();
}
