using System.Diagnostics;
using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Outline;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.FineTexture;

/// <summary>A look at the fine texture of one leaf; it needs the outline only. Owns its reading.</summary>
/// <param name="leaf">The leaf's own box within its picture, which has room about it.</param>
/// <param name="reading">The texture; null when there is no leaf or too little of it.</param>
internal sealed class TextureLook(Rect leaf, TextureReading? reading) : IDisposable
{
    /// <summary>The leaf's own box within its picture, which has room about it.</summary>
    public Rect Leaf { get; } = leaf;

    /// <summary>The texture; null when there is no leaf or too little of it.</summary>
    public TextureReading? Reading { get; } = reading;

    /// <summary>Looks at a leaf.</summary>
    /// <param name="bgr">The photo, 8-bit B, G, R, full size.</param>
    /// <param name="found">The outline.</param>
    /// <param name="options">How.</param>
    public static TextureLook At(Mat bgr, FoundLeaf found, FineTextureOptions options)
    {
        using Activity? step = Steps.Begin("fine texture");
        Rect leaf = Cv2.BoundingRect(found.Mask);
        if (leaf.Width == 0)
        {
            return new TextureLook(leaf, null);
        }

        using LeafPatch small = LeafPatch.Cut(bgr, found, ReadAt(found.Box, leaf, options.ReadAtPx));
        return new TextureLook(leaf, TextureReader.Read(small));
    }

    /// <inheritdoc />
    public void Dispose() => Reading?.Dispose();

    private static int ReadAt(Rect whole, Rect leaf, int readAtPx)
    {
        double room = Math.Max(whole.Width, whole.Height) / (double)Math.Max(leaf.Width, leaf.Height);
        return (int)Math.Round(readAtPx * room);
    }
}
