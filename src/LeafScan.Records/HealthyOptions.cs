using LeafScan.Leaves;
using LeafScan.Leaves.Greenness;

namespace LeafScan.Records;

/// <summary>How the photos of a plant with a healthy photo are measured, and were.</summary>
public static class HealthyOptions
{
    private static readonly string?[] Kinds = [null, "twig", "plant"];

    /// <summary>How photos of a plant are measured from now on.</summary>
    /// <param name="options">How others are.</param>
    /// <param name="plant">The plant; null when not known.</param>
    public static MeasureOptions For(this MeasureOptions options, Plant? plant) => plant?.Facts.Healthy is { } healthy ? options with { Healthy = healthy.Colour } : options;

    /// <summary>How a reading on record was made: with the healthy photo only where it was there already, whatever kind was said then.</summary>
    /// <param name="options">How others are.</param>
    /// <param name="plant">The plant; null when not known.</param>
    /// <param name="origin">Where the reading comes from.</param>
    public static MeasureOptions AsMeasured(this MeasureOptions options, Plant? plant, ReadingOrigin origin)
    {
        MeasureOptions now = options.For(plant);
        return now.Healthy is HealthyColour && Kinds.Any(kind => (now with { Kind = kind }).Hash() == origin.OptionsHash) ? now : options;
    }
}
