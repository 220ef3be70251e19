namespace LeafScan.Training.Rendering.Shade;

/// <summary>
/// Shadows of things outside the photo that fall across leaf and ground alike: twigs, a fence, other leaves. Tissue in
/// shadow is what it was; the truth does not know of them.
/// </summary>
public sealed record ShadowBandSpec
{
    /// <summary>Seed of their places.</summary>
    public required int Seed { get; init; }

    /// <summary>How many, 1 to 12.</summary>
    public required int Count { get; init; }

    /// <summary>Middle width in mm.</summary>
    public double WidthMm { get; init; } = 8;

    /// <summary>Direction of the bands in degrees, clockwise from the right.</summary>
    public double AngleDegrees { get; init; }

    /// <summary>Share of the light that they take, 0..0.75.</summary>
    public double Darkness { get; init; } = 0.4;

    /// <summary>Width of their soft edge in mm; what is further off has a softer shadow.</summary>
    public double SoftMm { get; init; } = 1.5;

    /// <summary>How far their edges leave the straight line, 0 a fence to 1 leaves.</summary>
    public double Ragged { get; init; } = 0.3;
}
