using LeafScan.Training.Rendering.Truth;

namespace LeafScan.Training.Rendering.Twigs;

/// <summary>The truth about a rendered twig.</summary>
/// <param name="Foliage">Foliage area, shares and the specks that are seen; wood is no foliage, chewed is always 0.</param>
/// <param name="Fallen">Share of the leaves that have fallen, 0..1.</param>
/// <param name="Fresh">Share of the foliage area that is new growth, 0..1.</param>
public sealed record TwigTruth(LeafTruth Foliage, double Fallen, double Fresh);
