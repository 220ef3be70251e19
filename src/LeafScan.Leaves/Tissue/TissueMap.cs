using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Tissue;

/// <summary>
/// What the tissue of one leaf patch looks like, pixel by pixel, before anything is said about its shape. Owns its
/// picture.
/// </summary>
/// <param name="codes">8-bit, size of the patch: <see cref="MaskCode"/> Sound, Speck, Yellowed, Browned, Unassessed inside the leaf, 0 outside.</param>
/// <param name="specks">Specks in patch pixels.</param>
/// <param name="low">Damage if every doubtful pixel were sound, 0..1.</param>
/// <param name="high">Damage if every doubtful pixel were damaged, 0..1.</param>
/// <param name="flags">Doubts found on the way.</param>
internal sealed class TissueMap(Mat codes, IReadOnlyList<SpeckMark> specks, double low, double high, IReadOnlyList<string> flags) : IDisposable
{
    /// <summary>Mask codes inside the leaf, 0 outside.</summary>
    public Mat Codes { get; } = codes;

    /// <summary>Specks in patch pixels.</summary>
    public IReadOnlyList<SpeckMark> Specks { get; } = specks;

    /// <summary>Damage with the strict threshold, 0..1.</summary>
    public double Low { get; } = low;

    /// <summary>Damage with the generous threshold, 0..1.</summary>
    public double High { get; } = high;

    /// <summary>Names from <see cref="Photos.Flag"/>.</summary>
    public IReadOnlyList<string> Flags { get; } = flags;

    /// <inheritdoc />
    public void Dispose() => Codes.Dispose();
}
