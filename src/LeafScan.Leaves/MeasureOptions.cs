using System.Security.Cryptography;
using System.Text;
using LeafScan.Frame;
using LeafScan.Leaves.Chewing;
using LeafScan.Leaves.FineTexture;
using LeafScan.Leaves.Greenness;
using LeafScan.Leaves.Needles;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Tissue;
using LeafScan.Leaves.WholePlant;

namespace LeafScan.Leaves;

/// <summary>How to measure. Printable and hashable; the hash is stored with each reading.</summary>
public sealed record MeasureOptions
{
    /// <summary>
    /// What the photos show: "leaf", "twig" or "plant"; null (default) lets the photo-kind model say it, and counts as leaf
    /// where that is not sure.
    /// </summary>
    public string? Kind { get; init; }

    /// <summary>Chance from which the photo-kind model counts as sure, 0..1; 0.9 by default.</summary>
    public double KindSureFrom { get; init; } = 0.9;

    /// <summary>How scale sheets and tags are looked for.</summary>
    public FrameOptions Frame { get; init; } = new();

    /// <summary>How leaves are searched for.</summary>
    public OutlineOptions Outline { get; init; } = new();

    /// <summary>How tissue is judged.</summary>
    public TissueOptions Tissue { get; init; } = new();

    /// <summary>How stippling is read where specks have too few pixels.</summary>
    public FineTextureOptions FineTexture { get; init; } = new();

    /// <summary>How missing leaf is found.</summary>
    public ChewOptions Chewing { get; init; } = new();

    /// <summary>How twigs are measured.</summary>
    public TwigOptions Twig { get; init; } = new();

    /// <summary>How whole plants are measured.</summary>
    public CrownOptions Crown { get; init; } = new();

    /// <summary>Sound colour of this plant from a photo of it in health; null (default) for its own on each photo. Twigs and whole plants only.</summary>
    public HealthyColour? Healthy { get; init; }

    /// <summary>Most leaves read from one photo, largest first; 12 by default.</summary>
    public int MostLeaves { get; init; } = 12;

    /// <summary>A leaf with fewer pixels than this on its longer side is flagged leafTooSmall; 250 by default.</summary>
    public int SmallLeafPx { get; init; } = 250;

    /// <summary>First 16 hex digits of the SHA-256 of the options' text: stored with each reading to explain an old number.</summary>
    public string Hash() => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(ToString())))[..16];
}
