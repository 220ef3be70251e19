namespace LeafScan.Notes.Client;

/// <summary>What the figures of a note are of, in words: leaves, twigs or whole plants.</summary>
internal sealed record NoteThing
{
    private static readonly NoteThing Leaf = new()
    {
        One = "leaf",
        Many = "leaves",
        Area = "leaf area",
        Photos = "photos of single leaves",
        Itself = "the same leaf",
        TrueMean = "the true mean of the plant's leaves",
    };

    private static readonly NoteThing Twig = new()
    {
        One = "twig",
        Many = "twigs",
        Area = "foliage",
        Photos = "photos of twigs",
        Itself = "the same twig",
        TrueMean = "the true mean of the plant's twigs",
    };

    private static readonly NoteThing Plant = new()
    {
        One = "view of the whole plant",
        Many = "views of the whole plant",
        Area = "foliage",
        Photos = "photos of the whole plant",
        Itself = "the plant itself",
        TrueMean = "the true share of the plant",
    };

    /// <summary>One of them.</summary>
    public required string One { get; init; }

    /// <summary>Several.</summary>
    public required string Many { get; init; }

    /// <summary>What a share is a share of.</summary>
    public required string Area { get; init; }

    /// <summary>What was photographed.</summary>
    public required string Photos { get; init; }

    /// <summary>Whose sound colour it is held against.</summary>
    public required string Itself { get; init; }

    /// <summary>What a range very likely holds.</summary>
    public required string TrueMean { get; init; }

    /// <summary>Words for a kind of reading.</summary>
    /// <param name="kind"><c>leaf</c>, <c>twig</c> or <c>plant</c>; anything else counts as leaf.</param>
    public static NoteThing Of(string? kind) => kind switch { "twig" => Twig, "plant" => Plant, _ => Leaf };

    /// <summary>A number of them.</summary>
    /// <param name="n">How many.</param>
    public string Count(int n) => NoteForms.Count(n, One, Many);
}
