using LeafScan.Photos.Colour;

namespace LeafScan.Training.Rendering.Blades;

/// <summary>What the leaves of one kind of plant have in common. Sizes are usual garden sizes, drawn by eye and not taken from one flora.</summary>
public sealed record Host
{
    /// <summary>Name in the scene description.</summary>
    public required string Name { get; init; }

    /// <summary>Shortest and longest blade in mm.</summary>
    public required (double Low, double High) LengthMm { get; init; }

    /// <summary>Width over length, narrowest and widest.</summary>
    public required (double Low, double High) WidthRatio { get; init; }

    /// <summary>How blunt the base is: the margin leaves it as distance to this power; 0.5 is round, 1 is a wedge.</summary>
    public required double BasePower { get; init; }

    /// <summary>The same at the tip; above 1 it is drawn out.</summary>
    public required double TipPower { get; init; }

    /// <summary>Teeth on each side; 0 is an entire margin.</summary>
    public int Teeth { get; init; }

    /// <summary>Depth of a tooth in mm.</summary>
    public double ToothMm { get; init; }

    /// <summary>Round lobes on each side; 0 is none.</summary>
    public int Lobes { get; init; }

    /// <summary>Depth of the bays between lobes, as a share of the half width.</summary>
    public double LobeDepth { get; init; }

    /// <summary>Side veins on each side.</summary>
    public required int VeinPairs { get; init; }

    /// <summary>How far the blade bulges between the veins, 0..1.</summary>
    public required double Quilting { get; init; }

    /// <summary>How shiny the blade is, 0..1.</summary>
    public required double Gloss { get; init; }

    /// <summary>How strongly veins stand out by colour, 0..1.</summary>
    public required double VeinContrast { get; init; }

    /// <summary>Colours of sound tissue that occur: plain green first, then cultivars.</summary>
    public required IReadOnlyList<LabColour> Colours { get; init; }

    /// <summary>Blades that make one leaf: 1, or 3 or 5 on a common stalk.</summary>
    public int Leaflets { get; init; } = 1;
}
