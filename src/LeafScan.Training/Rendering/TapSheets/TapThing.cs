using LeafScan.Photos.Colour;

namespace LeafScan.Training.Rendering.TapSheets;

/// <summary>What can lie on a tap sheet.</summary>
public enum TapKind
{
    /// <summary>A plant mite, alive; it may rest between the two photos.</summary>
    Mite,

    /// <summary>A predatory mite: as small, and much faster.</summary>
    Predator,

    /// <summary>A cast skin: pale, mite-shaped, does not move.</summary>
    Skin,

    /// <summary>A grain of dust or pollen.</summary>
    Dust,

    /// <summary>A grain of soil or sand.</summary>
    Grain,

    /// <summary>A hair or thread.</summary>
    Fibre,

    /// <summary>A bit of needle, scale or bark.</summary>
    PlantBit,
}

/// <summary>One thing on the sheet. Places are mm from the middle of the sheet, x to the right, y down.</summary>
public sealed record TapThing
{
    /// <summary>What it is.</summary>
    public required TapKind Kind { get; init; }

    /// <summary>Seed of its own shape.</summary>
    public required int Seed { get; init; }

    /// <summary>Place in the first photo.</summary>
    public required double X { get; init; }

    /// <summary>Place in the first photo.</summary>
    public required double Y { get; init; }

    /// <summary>Way to its place in the second photo, mm.</summary>
    public double MoveX { get; init; }

    /// <summary>Way to its place in the second photo, mm.</summary>
    public double MoveY { get; init; }

    /// <summary>Direction of its head or long side in the first photo, degrees clockwise from the right.</summary>
    public double AngleDegrees { get; init; }

    /// <summary>Turn between the photos, degrees.</summary>
    public double TurnDegrees { get; init; }

    /// <summary>Length of its body in mm, without legs.</summary>
    public required double LengthMm { get; init; }

    /// <summary>Width over length, 0..1.</summary>
    public required double WidthRatio { get; init; }

    /// <summary>Its colour, CIE Lab.</summary>
    public required LabColour Colour { get; init; }

    /// <summary>How far it moved, mm.</summary>
    public double WayMm => Math.Sqrt((MoveX * MoveX) + (MoveY * MoveY));

    /// <summary>True for a living mite or predator that moved by at least half of its own length: the least that the eye takes for walking.</summary>
    public bool Crawls => Kind is TapKind.Mite or TapKind.Predator && WayMm >= 0.5 * LengthMm;
}
