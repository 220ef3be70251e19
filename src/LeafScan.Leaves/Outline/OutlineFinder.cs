using OpenCvSharp;
namespace LeafScan.Leaves.Outline;
/// <summary>x</summary>
public sealed record OutlineOptions;
/// <summary>x</summary>
public sealed class OutlineResult : IDisposable { /// <summary>x</summary>
 public IReadOnlyList<FoundLeaf> Leaves { get; init; } = []; /// <summary>x</summary>
 public string? WhyNone { get; init; } /// <summary>x</summary>
 public string? Advice { get; init; } /// <inheritdoc />
 public void Dispose() { foreach (FoundLeaf l in Leaves) l.Dispose(); } }
/// <summary>x</summary>
public static class OutlineFinder { /// <summary>x</summary>
 public static OutlineResult Find(Mat bgr, OutlineOptions options, CancellationToken cancel) => new(); }
