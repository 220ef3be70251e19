using LeafScan.Leaves.Kinds;
using OpenCvSharp;

namespace LeafScan.Training.Kinds;

/// <summary>One picture whose kind is known. Owns its pixels.</summary>
/// <param name="Kind">What it shows.</param>
/// <param name="Source">Where it comes from: rendered, drawn, or the name of a folder.</param>
/// <param name="Name">Name of the picture, for lists of mistakes.</param>
/// <param name="Pixels">8-bit B, G, R.</param>
internal sealed record KindExample(PhotoKind Kind, string Source, string Name, Mat Pixels) : IDisposable
{
    public void Dispose() => Pixels.Dispose();
}
