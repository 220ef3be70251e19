namespace LeafScan.Training.Rendering.Plants;

/// <summary>The side of a plant as it is seen in the photo.</summary>
public enum PlantSide
{
    /// <summary>No side stands out.</summary>
    None,

    /// <summary>The left half of the photo.</summary>
    Left,

    /// <summary>The right half of the photo.</summary>
    Right,
}

/// <summary>
/// What is wrong with a whole plant. The same seed with larger figures gives the same damage and more of it. Single specks
/// cannot be seen from metres away and are not drawn.
/// </summary>
public sealed record PlantDamage
{
    /// <summary>Seed of all places of the damage.</summary>
    public int Seed { get; init; }

    /// <summary>Share of the tufts that are yellow or bronze, 0..1.</summary>
    public double YellowShare { get; init; }

    /// <summary>Share of the tufts that are dead and brown, 0..1.</summary>
    public double BrownShare { get; init; }

    /// <summary>Share of the tufts that have fallen, 0..0.9.</summary>
    public double LostShare { get; init; }

    /// <summary>The side that is hit harder.</summary>
    public PlantSide Side { get; init; }

    /// <summary>How much harder, 0 (not at all) to 1 (nearly all damage is there).</summary>
    public double SideStrength { get; init; }

    /// <summary>How much more the lower part is hit, 0..1.</summary>
    public double LowStrength { get; init; } = 0.3;
}
