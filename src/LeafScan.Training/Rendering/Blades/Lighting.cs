using System.Text.Json.Serialization;

namespace LeafScan.Training.Rendering.Blades;

/// <summary>The light of a scene.</summary>
public sealed record Lighting
{
    /// <summary>Where the light comes from, degrees clockwise from the right of the photo.</summary>
    public double AzimuthDegrees { get; init; } = 225;

    /// <summary>Height of the light above the sheet, degrees.</summary>
    public double HeightDegrees { get; init; } = 50;

    /// <summary>Share of the light that has a direction: 0.2 overcast, 0.8 hard sun.</summary>
    public double Hardness { get; init; } = 0.4;

    /// <summary>Share of the shine that reaches the lens, 0..1.</summary>
    public double Shine { get; init; } = 0.4;

    /// <summary>Where the sky is mirrored: a tilt of the blade by this slope shines most.</summary>
    public double ShineSlope { get; init; } = 0.3;

    /// <summary>Light that comes through the blade from behind, 0 none (usual) to 1 as much as from the front.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingDefault)]
    public double Through { get; init; }

    /// <summary>A band of shadow across the blades, 0 none to 0.6 dark.</summary>
    public double ShadowBand { get; init; }
}
