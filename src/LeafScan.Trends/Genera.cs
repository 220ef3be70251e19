namespace LeafScan.Trends;

/// <summary>What a botanical name tells by its first word.</summary>
public static class Genera
{
    private static readonly HashSet<string> Conifers = new(
        ["Picea", "Abies", "Pseudotsuga", "Tsuga", "Thuja", "Juniperus", "Chamaecyparis", "Pinus", "Cupressus", "Taxus", "Larix", "Cedrus", "Cryptomeria", "Platycladus"],
        StringComparer.OrdinalIgnoreCase);

    /// <summary>The first word of the name; null without a name.</summary>
    /// <param name="species">Such as "Euonymus alatus"; null when not known.</param>
    public static string? Of(string? species) => string.IsNullOrWhiteSpace(species) ? null : species.Trim().Split(' ')[0];

    /// <summary>Whether the plant is of a genus.</summary>
    /// <param name="species">Botanical name; null when not known.</param>
    /// <param name="genus">Genus.</param>
    public static bool Is(string? species, string genus) => string.Equals(Of(species), genus, StringComparison.OrdinalIgnoreCase);

    /// <summary>Whether the plant is a conifer; false without a name.</summary>
    /// <param name="species">Botanical name; null when not known.</param>
    public static bool IsConifer(string? species) => Of(species) is { } genus && Conifers.Contains(genus);
}
