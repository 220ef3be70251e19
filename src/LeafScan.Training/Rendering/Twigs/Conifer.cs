using LeafScan.Photos.Colour;

namespace LeafScan.Training.Rendering.Twigs;

/// <summary>How the leaves of a conifer sit on their shoot.</summary>
public enum FoliageKind
{
    /// <summary>Needles all around the shoot, as on spruce.</summary>
    Needle,

    /// <summary>Short stiff points, broad at the base, as on young juniper.</summary>
    Awl,

    /// <summary>Flat scales pressed to the shoot in a fan, as on arborvitae.</summary>
    Scale,
}

/// <summary>What twigs of one conifer have in common. Sizes are usual garden sizes, drawn by eye and not taken from one flora.</summary>
public sealed record Conifer
{
    /// <summary>Name in the scene description.</summary>
    public required string Name { get; init; }

    /// <summary>How its leaves sit.</summary>
    public required FoliageKind Foliage { get; init; }

    /// <summary>Shortest and longest leaf in mm.</summary>
    public required (double Low, double High) LeafMm { get; init; }

    /// <summary>Widest place of a leaf in mm.</summary>
    public required double LeafWidthMm { get; init; }

    /// <summary>Leaves per mm of shoot.</summary>
    public required double LeavesPerMm { get; init; }

    /// <summary>Angle between leaf and shoot, degrees.</summary>
    public required double LeafAngle { get; init; }

    /// <summary>Distance between side shoots in mm.</summary>
    public required double SideEveryMm { get; init; }

    /// <summary>Longest side shoot as a share of the twig.</summary>
    public required double SideShare { get; init; }

    /// <summary>Angle between side shoot and twig, degrees.</summary>
    public required double SideAngle { get; init; }

    /// <summary>How often shoots branch: 1 or 2.</summary>
    public required int Orders { get; init; }

    /// <summary>Pale wax lines on the leaves, 0..1.</summary>
    public double Bloom { get; init; }

    /// <summary>Colours of sound old foliage that occur: plain first, then cultivars.</summary>
    public required IReadOnlyList<LabColour> Colours { get; init; }
}
