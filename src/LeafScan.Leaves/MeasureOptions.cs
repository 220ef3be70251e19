namespace LeafScan.Leaves;

/// <summary>How to measure. Printable and hashable; the hash is stored with each reading.</summary>
public sealed record MeasureOptions
{
    /// <summary>What the photos show: "leaf" (default), "twig" or "plant". Twigs and plants are refused until they can be measured.</summary>
    public string Kind { get; init; } = "leaf";

    /// <summary>First 16 hex digits of the SHA-256 of the options' text: stored with each reading to explain an old number.</summary>
    public string Hash() => Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(ToString())))[..16];
}
