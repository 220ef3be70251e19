using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering.Backgrounds;
using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Camera;

namespace LeafScan.Training.Rendering.Twigs;

/// <summary>Everything that makes one rendered photo of a conifer twig. The same description gives the same bytes.</summary>
public sealed record TwigSpec
{
    /// <summary>Name of the files, without ending.</summary>
    public required string Name { get; init; }

    /// <summary>Seed of the twig's own shape and colours; the same twig a month later has the same seed.</summary>
    public required int Seed { get; init; }

    /// <summary>easy, medium or hard.</summary>
    public required string Difficulty { get; init; }

    /// <summary>Width of the photo in pixels.</summary>
    public required int WidthPx { get; init; }

    /// <summary>Height of the photo in pixels.</summary>
    public required int HeightPx { get; init; }

    /// <summary>Kind of plant: a name of <see cref="Conifers"/>.</summary>
    public required string Host { get; init; }

    /// <summary>Length of the twig in mm.</summary>
    public required double LengthMm { get; init; }

    /// <summary>Pixels of the photo per millimetre.</summary>
    public required double PixelsPerMm { get; init; }

    /// <summary>Colour of its sound old foliage, CIE Lab.</summary>
    public required LabColour Colour { get; init; }

    /// <summary>Direction of the twig's end in degrees, clockwise from the right.</summary>
    public double AngleDegrees { get; init; }

    /// <summary>Length of the fresh growth at the end of each shoot in mm; 0 is none.</summary>
    public double NewGrowthMm { get; init; }

    /// <summary>Height above what it lies on in mm: how far its shadow is thrown.</summary>
    public double HeightMm { get; init; } = 4;

    /// <summary>What is wrong with it.</summary>
    public TwigDamage Damage { get; init; } = new();

    /// <summary>What lies under or behind the twig.</summary>
    public required BackgroundSpec Background { get; init; }

    /// <summary>The light.</summary>
    public required Lighting Light { get; init; }

    /// <summary>The camera; its tilt is ignored.</summary>
    public required CameraSpec Camera { get; init; }
}
