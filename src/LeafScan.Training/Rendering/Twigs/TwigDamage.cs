namespace LeafScan.Training.Rendering.Twigs;

/// <summary>Where yellow and brown lie on the leaves of a twig.</summary>
public enum TwigPattern
{
    /// <summary>As mites leave it: old inner foliage first, each leaf from its base.</summary>
    Mites,

    /// <summary>Only the outer part of leaves near shoot ends, as frost, salt or drought leave it (a look-alike).</summary>
    Tips,

    /// <summary>Bands across leaves of old wood, as needle cast leaves them (a look-alike).</summary>
    Bands,
}

/// <summary>What is wrong with a twig. The same seed with larger figures gives the same damage and more of it.</summary>
public sealed record TwigDamage
{
    /// <summary>Seed of all places of the damage.</summary>
    public int Seed { get; init; }

    /// <summary>Specks per mm of leaf where mites are thickest, 0..3; 0 by default.</summary>
    public double SpecksPerMm { get; init; }

    /// <summary>Middle diameter of a speck in mm, 0.2 by default; never more than six tenths of the leaf's width. No published size was found; chosen by eye.</summary>
    public double SpeckMm { get; init; } = 0.2;

    /// <summary>How pale the specks are at most, 0..1, 0.8 by default.</summary>
    public double SpeckStrength { get; init; } = 0.8;

    /// <summary>Share of the leaves that are yellow for the most part, 0..1.</summary>
    public double YellowShare { get; init; }

    /// <summary>Share of the leaves that are dead for the most part, 0..1.</summary>
    public double BrownShare { get; init; }

    /// <summary>Share of the leaves that have fallen, 0..0.9.</summary>
    public double LostShare { get; init; }

    /// <summary>Where yellow and brown lie.</summary>
    public TwigPattern Pattern { get; init; }
}
