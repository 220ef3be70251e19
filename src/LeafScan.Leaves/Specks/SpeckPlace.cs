namespace LeafScan.Leaves.Specks;

/// <summary>One place at which the network holds that a speck lies.</summary>
/// <param name="X">Patch pixels.</param>
/// <param name="Y">Patch pixels.</param>
/// <param name="Chance">0..1, that a speck of its own lies there.</param>
internal readonly record struct SpeckPlace(float X, float Y, float Chance);
