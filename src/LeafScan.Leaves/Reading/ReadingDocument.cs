using LeafScan.Photos;

namespace LeafScan.Leaves.Reading;

/// <summary>The result of one measuring run, as every door writes it (schema leafscan.reading/1).</summary>
public sealed record ReadingDocument
{
    /// <summary>Name and number of the format.</summary>
    public const string CurrentSchema = "leafscan.reading/1";

    /// <summary>Always <see cref="CurrentSchema"/>.</summary>
    public string Schema { get; init; } = CurrentSchema;

    /// <summary>Version of the tool that measured.</summary>
    public required string Tool { get; init; }

    /// <summary>Photos that were measured.</summary>
    public required IReadOnlyList<PhotoReading> Photos { get; init; }

    /// <summary>Files that were refused, with reason and advice.</summary>
    public required IReadOnlyList<PhotoRefusal> Refused { get; init; }
}
