using OpenCvSharp;

namespace LeafScan.Training.Rendering.Twigs;

/// <summary>One needle, awl or scale.</summary>
internal sealed record TwigLeaf
{
    /// <summary>Where it leaves the shoot, in mm of the twig's own plane.</summary>
    public required Point2d At { get; init; }

    /// <summary>Direction of its tip, radians.</summary>
    public required double Angle { get; init; }

    /// <summary>Length as seen from above, mm.</summary>
    public required double LengthMm { get; init; }

    /// <summary>Widest place, mm.</summary>
    public required double WidthMm { get; init; }

    /// <summary>Nearness to the viewer: about 0 for the back, 1 for the front.</summary>
    public required double Depth { get; init; }

    /// <summary>0 at the twig's base, 1 at its end or the end of its side shoot.</summary>
    public required double Age { get; init; }

    /// <summary>Distance from the end of its shoot in mm.</summary>
    public required double FromEndMm { get; init; }

    /// <summary>Kind of leaf: decides its outline.</summary>
    public required FoliageKind Kind { get; init; }

    /// <summary>Own deviation of lightness, about -1..1.</summary>
    public required double Tone { get; init; }

    /// <summary>Half width at a place along the leaf (0 base, 1 tip), in mm.</summary>
    public double HalfWidthAt(double t) => 0.5 * WidthMm * Kind switch
    {
        FoliageKind.Needle => Math.Min(1, 0.55 + (6 * t)) * Math.Pow(Math.Clamp((1 - t) * 5, 0, 1), 0.6),
        FoliageKind.Awl => (0.85 + (0.3 * t)) * Math.Pow(1 - t, 0.75) * 1.15,
        _ => Math.Pow(Math.Clamp(t * 4, 0.25, 1), 0.5) * Math.Pow(Math.Clamp((1 - t) * 2.2, 0, 1), 0.65),
    };
}
