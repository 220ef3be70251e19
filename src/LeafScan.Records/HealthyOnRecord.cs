using System.Text.Json;
using LeafScan.Leaves.Greenness;

namespace LeafScan.Records;

/// <summary>The sound colour that is kept of a plant: twigs and whole plants of it are measured against it from then on.</summary>
/// <param name="File">Name of the healthy photo, for people.</param>
/// <param name="Colour">What it showed.</param>
public sealed record HealthyOnRecord(string File, HealthyColour Colour)
{
    private static readonly JsonSerializerOptions Form = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase };

    /// <summary>As it stands in the store.</summary>
    internal string ToText() => JsonSerializer.Serialize(this, Form);

    /// <summary>Null for no text and for one that holds no colour of foliage: a record from elsewhere may say anything.</summary>
    internal static HealthyOnRecord? Read(string? text)
    {
        try
        {
            HealthyOnRecord? read = text is null ? null : JsonSerializer.Deserialize<HealthyOnRecord>(text, Form);
            return read is { File: not null, Colour: { Sha256: not null, IsPlausible: true } } ? read : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
