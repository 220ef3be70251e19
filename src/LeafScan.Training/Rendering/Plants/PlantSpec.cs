using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Camera;

namespace LeafScan.Training.Rendering.Plants;

/// <summary>What stands behind a plant.</summary>
public enum BackdropKind
{
    /// <summary>A plastered wall.</summary>
    Wall,

    /// <summary>A hedge or shrubs, out of focus.</summary>
    Hedge,

    /// <summary>Open sky over a far line of trees.</summary>
    Sky,
}

/// <summary>What is around a plant. None of it counts.</summary>
public sealed record PlantPlace
{
    /// <summary>Seed of all its patterns.</summary>
    public required int Seed { get; init; }

    /// <summary>What stands behind.</summary>
    public BackdropKind Backdrop { get; init; }

    /// <summary>True for lawn in front, false for mulch.</summary>
    public bool Lawn { get; init; } = true;

    /// <summary>Height in the photo where the ground ends, 0 top to 1 bottom; 0.55 by default.</summary>
    public double Horizon { get; init; } = 0.55;

    /// <summary>Number of flowers in the bed.</summary>
    public int Flowers { get; init; }

    /// <summary>A pale label on a stake beside the plant.</summary>
    public bool Label { get; init; }
}

/// <summary>Everything that makes one rendered photo of a whole plant. The same description gives the same bytes.</summary>
public sealed record PlantSpec
{
    /// <summary>Name of the files, without ending.</summary>
    public required string Name { get; init; }

    /// <summary>Seed of the plant's own shape and colours; the same plant a month later has the same seed.</summary>
    public required int Seed { get; init; }

    /// <summary>easy, medium or hard.</summary>
    public required string Difficulty { get; init; }

    /// <summary>Width of the photo in pixels.</summary>
    public required int WidthPx { get; init; }

    /// <summary>Height of the photo in pixels.</summary>
    public required int HeightPx { get; init; }

    /// <summary>Kind of plant: a name of <see cref="PlantHabits"/>.</summary>
    public required string Host { get; init; }

    /// <summary>Height of the plant in m.</summary>
    public required double HeightM { get; init; }

    /// <summary>Width over height.</summary>
    public required double WidthRatio { get; init; }

    /// <summary>Pixels of the photo per metre at the plant.</summary>
    public required double PixelsPerM { get; init; }

    /// <summary>Foot of the plant in the photo: pixels from the left.</summary>
    public required double FootX { get; init; }

    /// <summary>Foot of the plant in the photo: pixels from the top.</summary>
    public required double FootY { get; init; }

    /// <summary>Colour of its sound foliage, CIE Lab.</summary>
    public required LabColour Colour { get; init; }

    /// <summary>Share of the tufts that carry pale fresh growth, 0..1 (sound).</summary>
    public double Flush { get; init; }

    /// <summary>Share of the tufts in fall colour, 0..1 (sound; evergreens ignore it).</summary>
    public double FallShare { get; init; }

    /// <summary>What is wrong with it.</summary>
    public PlantDamage Damage { get; init; } = new();

    /// <summary>Other plants that stand farther back; they do not count.</summary>
    public IReadOnlyList<PlantSpec> Neighbours { get; init; } = [];

    /// <summary>What is around it.</summary>
    public required PlantPlace Place { get; init; }

    /// <summary>The light.</summary>
    public required Lighting Light { get; init; }

    /// <summary>The camera; its tilt is ignored.</summary>
    public required CameraSpec Camera { get; init; }
}
