namespace LeafScan.Notes.Tags;

/// <summary>A tag to print.</summary>
/// <param name="Code">The plant's short code.</param>
/// <param name="Name">The plant's name or species in plain text, printed small; null for none.</param>
public sealed record PlantTag(string Code, string? Name = null);
