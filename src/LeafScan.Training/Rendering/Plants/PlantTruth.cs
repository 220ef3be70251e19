using LeafScan.Training.Rendering.Truth;

namespace LeafScan.Training.Rendering.Plants;

/// <summary>One sixth of a plant: left or right half, lower, middle or upper third of its full outline.</summary>
/// <param name="Side">left or right.</param>
/// <param name="Height">low, middle or high.</param>
/// <param name="FoliagePx">Pixels of foliage in it.</param>
/// <param name="Discoloured">Yellowed and browned share of that foliage, 0..1.</param>
/// <param name="Thinned">Share of its foliage area that is missing against the same plant with nothing fallen, 0..1.</param>
public sealed record PlantSector(string Side, string Height, int FoliagePx, double Discoloured, double Thinned);

/// <summary>The truth about a rendered whole plant.</summary>
/// <param name="FoliagePx">Pixels of foliage.</param>
/// <param name="Shares">Shares of that; stippled and chewed are always 0.</param>
/// <param name="Thinned">Share of the foliage area that is missing against the same plant with nothing fallen, 0..1.</param>
/// <param name="Fall">Share of the foliage in fall colour, 0..1 (sound).</param>
/// <param name="Fresh">Share of the foliage that is pale fresh growth, 0..1 (sound).</param>
/// <param name="Sectors">The six sectors.</param>
/// <param name="WorseSide">left or right where the halves differ by at least five points and by half of the larger in what is discoloured or missing, as a share of their full foliage area; none otherwise.</param>
public sealed record PlantTruth(int FoliagePx, TrueShares Shares, double Thinned, double Fall, double Fresh, IReadOnlyList<PlantSector> Sectors, string WorseSide);
