using LeafScan.Records;

namespace LeafScan.Cli.Screen;

/// <summary>Age and label of a leaf in words.</summary>
internal static class LeafText
{
    /// <summary>"new growth, tagged 3"; empty when nothing is told.</summary>
    public static string Of(LeafGrowth? age, string? tag)
        => string.Join(", ", new[] { OnScreen(age), tag is null ? null : "tagged " + tag }.Where(word => word is not null));

    /// <summary>As documents have it; null when not told.</summary>
    public static string? InDocuments(LeafGrowth? age) => age switch
    {
        LeafGrowth.New => "newGrowth",
        LeafGrowth.Old => "oldGrowth",
        _ => null,
    };

    private static string? OnScreen(LeafGrowth? age) => age switch
    {
        LeafGrowth.New => "new growth",
        LeafGrowth.Old => "old growth",
        _ => null,
    };
}
