using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Rendering.Twigs;

/// <summary>Colours of a twig's leaves, from the twig's own sound colour.</summary>
internal sealed class TwigColour(TwigSpec spec)
{
    private const double GrowthBlendMm = 4;

    private readonly double _azimuth = spec.Light.AzimuthDegrees * Math.PI / 180;

    /// <summary>Colour of a leaf where it is sound; fresh growth is paler and yellower.</summary>
    public LabColour Sound(TwigLeaf leaf)
    {
        double fresh = spec.NewGrowthMm <= 0 ? 0 : Math.Clamp((spec.NewGrowthMm - leaf.FromEndMm) / GrowthBlendMm, 0, 1);
        double old = 1 - leaf.Age;
        return spec.Colour.Move((2.2 * leaf.Tone) - (2 * old) + (7 * fresh), (0.8 * leaf.Tone) - (2 * fresh), (1.5 * leaf.Tone) + (7 * fresh));
    }

    /// <summary>Colour of an emptied speck: paler and less green than the leaf around it.</summary>
    public static LabColour Bleached(LabColour sound) => new(Math.Min(86, sound.L + 26), 0.15 * sound.A, (0.6 * sound.B) + 9);

    /// <summary>Colour of diffusely yellow tissue.</summary>
    public static LabColour Yellow(LabColour sound, TwigLeaf leaf)
    {
        // Some leaves turn clear yellow, some a dull bronze.
        double bronze = Math.Clamp(0.5 + (0.35 * leaf.Tone), 0, 1);
        return new LabColour(Math.Min(78, (0.45 * sound.L) + 38 - (10 * bronze)), (0.3 * sound.A) + (6 * bronze), (0.45 * sound.B) + 27 - (6 * bronze));
    }

    /// <summary>Colour of dead tissue: straw to rust, by the leaf's own tone.</summary>
    public static LabColour Brown(TwigLeaf leaf) => new(45 + (6 * leaf.Tone), 13 - (2 * leaf.Tone), 27 + (3 * leaf.Tone));

    /// <summary>Light on one half of a leaf.</summary>
    /// <param name="leaf">The leaf.</param>
    /// <param name="angle">Its direction in the photo, radians.</param>
    /// <param name="side">-1 for the left half seen towards the tip, 1 for the right.</param>
    public double Shade(TwigLeaf leaf, double angle, int side)
    {
        // Each half leans away from the middle line; the one that looks towards the light is brighter.
        double towards = side * ((-Math.Sin(angle) * Math.Cos(_azimuth)) + (Math.Cos(angle) * Math.Sin(_azimuth)));
        double keel = leaf.Kind == FoliageKind.Scale ? 0.24 : 0.34;
        return (0.6 + (0.42 * leaf.Depth)) * (1 + (keel * (0.4 + (0.6 * spec.Light.Hardness)) * towards));
    }
}
