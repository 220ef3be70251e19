using System.Text.Json.Serialization;
using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering.Damage;
using LeafScan.Training.Rendering.LookAlikes;

namespace LeafScan.Training.Rendering.Blades;

/// <summary>One blade in a scene: what it is, how it lies, what is wrong with it.</summary>
public sealed record LeafSpec
{
    /// <summary>Seed of its own shape, veins and colour pattern. The same leaf a month later has the same seed.</summary>
    public required int Seed { get; init; }

    /// <summary>Kind of plant: a name of <see cref="Hosts"/>.</summary>
    public required string Host { get; init; }

    /// <summary>Length of the blade in pixels of the photo.</summary>
    public required double LengthPx { get; init; }

    /// <summary>Pixels of the photo per millimetre.</summary>
    public required double PixelsPerMm { get; init; }

    /// <summary>Colour of its sound tissue, CIE Lab.</summary>
    public required LabColour Colour { get; init; }

    /// <summary>Middle of the blade in pixels of the photo.</summary>
    public required double CentreX { get; init; }

    /// <summary>Middle of the blade in pixels of the photo.</summary>
    public required double CentreY { get; init; }

    /// <summary>Direction of the tip in degrees, clockwise from the right.</summary>
    public double AngleDegrees { get; init; }

    /// <summary>How far the midrib bends aside, as a share of the length, -0.15..0.15.</summary>
    public double Bend { get; init; }

    /// <summary>Slope of the two halves towards the midrib, 0 flat to 0.5.</summary>
    public double Fold { get; init; } = 0.12;

    /// <summary>Slow waves of the blade as a slope, 0..0.3.</summary>
    public double Waves { get; init; } = 0.12;

    /// <summary>How far the blade rises between the side veins, 0 not at all (usual) to 1 much.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingDefault)]
    public double Pillow { get; init; }

    /// <summary>How uneven the colour is, 0..1.</summary>
    public double Mottle { get; init; } = 0.4;

    /// <summary>Length of the stalk in mm.</summary>
    public double StalkMm { get; init; } = 5;

    /// <summary>Height above what it lies on, in mm: how far its shadow is thrown.</summary>
    public double HeightMm { get; init; } = 1.5;

    /// <summary>What is wrong with it.</summary>
    public DamageSpec Damage { get; init; } = new();

    /// <summary>What could be taken for damage; null for nothing.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public LookAlikeSpec? LookAlikes { get; init; }
}
