using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>
/// One leaf as it lies in the photo now: bites and holes are not part of <see cref="Mask"/>. Owns its mask.
/// </summary>
/// <param name="box">Bounding box in pixels of the full-size photo, with a margin of at least 8 pixels where the frame allows.</param>
/// <param name="mask">8-bit, one channel, size of <paramref name="box"/>: 255 leaf that is there, 0 everything else.</param>
/// <param name="flags">Names from <see cref="Photos.Flag"/>: leafCutOff, outlineUnsure ...</param>
public sealed class FoundLeaf(Rect box, Mat mask, IReadOnlyList<string> flags) : IDisposable
{
    /// <summary>Bounding box in pixels of the full-size photo.</summary>
    public Rect Box { get; } = box;

    /// <summary>255 leaf that is there, 0 everything else; size of <see cref="Box"/>.</summary>
    public Mat Mask { get; } = mask;

    /// <summary>Doubts about the outline.</summary>
    public IReadOnlyList<string> Flags { get; } = flags;

    /// <inheritdoc />
    public void Dispose() => Mask.Dispose();
}
