using System.Numerics;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks;

/// <summary>
/// A plane with as much about it as a filter may look, mirrored where the picture ends, as OpenCV's filters take it. Owns its copy.
/// </summary>
internal sealed class PaddedPlane : IDisposable
{
    private readonly Mat _padded = new();

    /// <summary>Copies a plane.</summary>
    /// <param name="plane">32-bit float, one channel.</param>
    public PaddedPlane(Mat plane)
    {
        // To the right as far again as a last vector may reach over.
        int right = LeafTile.ReachPx + Vector<float>.Count;
        Cv2.CopyMakeBorder(plane, _padded, LeafTile.ReachPx, LeafTile.ReachPx, LeafTile.ReachPx, right, BorderTypes.Reflect101);
        Step = _padded.Step() / sizeof(float);
    }

    /// <summary>Floats from a pixel to the one below it.</summary>
    public long Step { get; }

    /// <summary>Address of a pixel of the plane; may lie up to <see cref="LeafTile.ReachPx"/> outside.</summary>
    public unsafe float* At(int x, int y) => (float*)_padded.DataPointer + ((y + LeafTile.ReachPx) * Step) + x + LeafTile.ReachPx;

    /// <inheritdoc />
    public void Dispose() => _padded.Dispose();
}
