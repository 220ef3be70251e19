using LeafScan.Training.Rendering.Damage;

namespace LeafScan.Training.Rendering.Truth;

/// <summary>True shares, 0..1, of the whole leaf before it was chewed.</summary>
/// <param name="Stippled">Inside specks.</param>
/// <param name="Yellowed">Diffusely yellow.</param>
/// <param name="Browned">Dead and brown.</param>
/// <param name="Chewed">Missing.</param>
public sealed record TrueShares(double Stippled, double Yellowed, double Browned, double Chewed);

/// <summary>The truth about one leaf of a scene.</summary>
/// <param name="Host">Kind of plant.</param>
/// <param name="LeafAreaPx">Pixels of the whole leaf before it was chewed.</param>
/// <param name="Shares">Shares of that area, counted from the mask.</param>
/// <param name="SpeckCount">Specks whose centre is on leaf that is there and not browned.</param>
/// <param name="Specks">These specks, in pixels of the photo.</param>
public sealed record LeafTruth(string Host, int LeafAreaPx, TrueShares Shares, int SpeckCount, IReadOnlyList<Speck> Specks);

/// <summary>The truth about a rendered photo.</summary>
/// <param name="Leaves">One entry per leaf.</param>
/// <param name="Total">All leaves together.</param>
public sealed record SceneTruth(IReadOnlyList<LeafTruth> Leaves, LeafTruth Total);
