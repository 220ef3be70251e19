namespace LeafScan.Training.Rendering.Damage;

/// <summary>One drawn feeding mark.</summary>
/// <param name="X">Centre in pixels.</param>
/// <param name="Y">Centre in pixels.</param>
/// <param name="DiameterPx">Diameter of the disc of its half-height area, in pixels.</param>
/// <param name="Strength">Peak of the mixing with the bleached colour, 0..1.</param>
public readonly record struct Speck(double X, double Y, double DiameterPx, double Strength);
