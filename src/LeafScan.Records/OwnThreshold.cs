namespace LeafScan.Records;

/// <summary>A threshold that the person set.</summary>
/// <param name="Measure">Name of the measure, such as "mites-per-tap".</param>
/// <param name="Value">The number; shares 0..1.</param>
/// <param name="Plants">Genus or species; null for all.</param>
/// <param name="Client">Client; null for all.</param>
/// <param name="Region">Where it comes from; empty when not told.</param>
/// <param name="Source">Who says so.</param>
public sealed record OwnThreshold(string Measure, double Value, string? Plants, string? Client, string Region, string Source);
