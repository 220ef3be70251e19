using LeafScan.Leaves.Kinds;
using LeafScan.Photos;

namespace LeafScan.Leaves.Greenness;

/// <summary>Reads the sound colour off a photo of a healthy twig or plant.</summary>
/// <param name="Colour">The colour; null when none could be had.</param>
/// <param name="Damage">Discoloured share of the foliage on it, 0..1: a healthy photo has little.</param>
/// <param name="Refusal">Why there is no colour, and what to do; null when there is one.</param>
public sealed record HealthyPhoto(HealthyColour? Colour, double Damage, PhotoRefusal? Refusal)
{
    /// <summary>Damage from which a photo is hardly one of a healthy plant, 0..1.</summary>
    public const double HardlyHealthyFrom = 0.1;

    /// <summary>Reads it.</summary>
    /// <param name="photo">The photo; not changed and not disposed.</param>
    /// <param name="options">How to measure; its own healthy colour is left out.</param>
    /// <param name="cancel">Stops between steps.</param>
    public static HealthyPhoto Read(Photo photo, MeasureOptions options, CancellationToken cancel = default)
    {
        if (photo.Flags.Contains(Flag.DamagedFile.Name))
        {
            return Refused(photo, "The healthy photo is cut off or corrupt, so its colours may not be real.", "Copy it again from where it was taken.");
        }

        using LeafMeasurement measured = LeafMeter.Measure(photo, options with { Healthy = null }, cancel);
        if (measured.Refusal is { } refusal)
        {
            return new HealthyPhoto(null, 0, refusal);
        }

        if (measured.Reading!.Kind == PhotoKind.Leaf.Name())
        {
            return Refused(photo, "A healthy photo is of a twig or a whole plant, and this one was measured as a leaf.", "Leaves are judged by their own sound parts; for a twig or plant say so with --kind twig or --kind plant.");
        }

        return measured.Sound is { } colour
            ? new HealthyPhoto(colour, measured.Reading.Leaves[0].Damage, null)
            : Refused(photo, "Hardly any foliage on the healthy photo has the colour of living leaves.", "Choose a photo of the plant from when it was sound.");
    }

    private static HealthyPhoto Refused(Photo photo, string reason, string advice) => new(null, 0, new PhotoRefusal(photo.Facts.FileName, reason, advice));
}
