using System.Text.Json.Serialization;

namespace LeafScan.Leaves.Greenness;

/// <summary>
/// The sound colour of a twig or plant, as a photo of it in good health showed it. Damage of later photos is measured against it where the
/// plant has lost its green all over.
/// </summary>
public sealed record HealthyColour
{
    /// <summary>SHA-256 of the photo, lower-case hex.</summary>
    public required string Sha256 { get; init; }

    /// <summary>What it showed: twig or plant.</summary>
    public required string Kind { get; init; }

    /// <summary>ln(R/G) of the sound foliage in linear light, the light's own colour taken off where it is known.</summary>
    public required double RedToGreen { get; init; }

    /// <summary>ln(B/G) of the same.</summary>
    public required double BlueToGreen { get; init; }

    /// <summary>How far sound pixels scatter around it, ln units.</summary>
    public required double Scatter { get; init; }

    /// <summary>Something white lay in the photo, so the colour is that in neutral light.</summary>
    public required bool LightKnown { get; init; }

    /// <summary>Whether the colour can be that of foliage: a document may hold anything.</summary>
    [JsonIgnore]
    public bool IsPlausible => RedToGreen is >= -2.5 and <= 1.5 && Scatter is >= 0 and <= 1 && BlueToGreen is >= -5 and <= 1.5 && Kind is "twig" or "plant";
}
