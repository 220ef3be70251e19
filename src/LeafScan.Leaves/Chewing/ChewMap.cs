using OpenCvSharp;

namespace LeafScan.Leaves.Chewing;

/// <summary>Missing leaf of one mask. Owns its picture.</summary>
/// <param name="missing">8-bit, size of the mask: 255 bite or hole, 0 elsewhere.</param>
/// <param name="biteCount">Bites at the margin.</param>
/// <param name="holeCount">Holes inside the blade.</param>
/// <param name="straightCut">The margin has a long straight cut that was not rebuilt.</param>
internal sealed class ChewMap(Mat missing, int biteCount, int holeCount, bool straightCut) : IDisposable
{
    /// <summary>255 bite or hole, 0 elsewhere.</summary>
    public Mat Missing { get; } = missing;

    /// <summary>Bites at the margin.</summary>
    public int BiteCount { get; } = biteCount;

    /// <summary>Holes inside the blade.</summary>
    public int HoleCount { get; } = holeCount;

    /// <summary>A long straight cut was seen and left alone.</summary>
    public bool StraightCut { get; } = straightCut;

    /// <inheritdoc />
    public void Dispose() => Missing.Dispose();
}
