namespace LeafScan.Training.Demo;

/// <summary>One leaf of the demo on both walks.</summary>
/// <param name="Seed">Seed of its shape and damage.</param>
/// <param name="Specks">Specks on the first walk; -1 when the leaf is not there yet.</param>
/// <param name="SpecksLater">Specks on the second walk; -1 when another leaf was photographed instead.</param>
/// <param name="YellowLater">Yellow share on the second walk.</param>
/// <param name="Bitten">Bitten share on the first walk.</param>
/// <param name="Holes">Holes on the first walk.</param>
/// <param name="BittenLater">Bitten share on the second walk.</param>
/// <param name="HolesLater">Holes on the second walk.</param>
/// <param name="Length">Size relative to a grown leaf.</param>
internal sealed record DemoLeaf(
    int Seed, int Specks = 0, int SpecksLater = 0, double YellowLater = 0, double Bitten = 0, int Holes = 0, double BittenLater = 0, int HolesLater = 0, double Length = 1);
