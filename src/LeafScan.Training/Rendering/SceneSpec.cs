using System.Text.Json.Serialization;
using LeafScan.Training.Rendering.Backgrounds;
using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Camera;
using LeafScan.Training.Rendering.Hands;
using LeafScan.Training.Rendering.Shade;

namespace LeafScan.Training.Rendering;

/// <summary>Everything that makes one rendered photo. The same description gives the same bytes.</summary>
public sealed record SceneSpec
{
    /// <summary>Name of the files, without ending.</summary>
    public required string Name { get; init; }

    /// <summary>Seed from which the description was drawn; 0 when it was written by hand.</summary>
    public int Seed { get; init; }

    /// <summary>easy, medium, hard or demo.</summary>
    public required string Difficulty { get; init; }

    /// <summary>Width of the photo in pixels.</summary>
    public required int WidthPx { get; init; }

    /// <summary>Height of the photo in pixels.</summary>
    public required int HeightPx { get; init; }

    /// <summary>The blades, lowest first.</summary>
    public required IReadOnlyList<LeafSpec> Leaves { get; init; }

    /// <summary>Leaf that each blade belongs to, by blade; empty when each blade is a leaf of its own.</summary>
    public IReadOnlyList<int> LeafOfBlade { get; init; } = [];

    /// <summary>What lies under the leaves.</summary>
    public required BackgroundSpec Background { get; init; }

    /// <summary>A hand that holds the first leaf; null for none.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public HandSpec? Hand { get; init; }

    /// <summary>Bands of shadow over leaf and ground; null for none.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public ShadowBandSpec? Shadows { get; init; }

    /// <summary>The light.</summary>
    public required Lighting Light { get; init; }

    /// <summary>The camera.</summary>
    public required CameraSpec Camera { get; init; }
}
