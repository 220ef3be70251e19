using System.Text.Json.Serialization;

namespace LeafScan.Training.Rendering.Damage;

/// <summary>What made the specks.</summary>
public enum SpeckCause
{
    /// <summary>Spider mites: small specks in short walks beside the veins.</summary>
    Mites,

    /// <summary>Lace bugs: coarser specks in wide fields.</summary>
    LaceBug,
}

/// <summary>How diffuse yellowing lies on the blade.</summary>
public enum YellowKind
{
    /// <summary>Soft patches anywhere.</summary>
    Patches,

    /// <summary>Between the veins, which stay green.</summary>
    Interveinal,

    /// <summary>From the margin and the tip inwards.</summary>
    Margin,
}

/// <summary>
/// What is wrong with one blade. The same seed with larger figures gives the same damage and more of it, so that a leaf can
/// be shown again a month later.
/// </summary>
public sealed record DamageSpec
{
    /// <summary>Seed of all places and shapes of the damage.</summary>
    public int Seed { get; init; }

    /// <summary>Number of specks drawn, 0 by default.</summary>
    public int Specks { get; init; }

    /// <summary>Middle diameter of a speck in mm, 0.32 by default; feeding marks are 0.15 to 0.6 mm.</summary>
    public double SpeckMm { get; init; } = 0.32;

    /// <summary>How pale the specks are at most, 0..1, 0.8 by default.</summary>
    public double SpeckStrength { get; init; } = 0.8;

    /// <summary>How silvery the specks are, 0 yellowish (usual) to 1 nearly neutral.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingDefault)]
    public double SpeckSilver { get; init; }

    /// <summary>What made the specks, mites by default. A speck is a speck in the truth, whatever made it.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingDefault)]
    public SpeckCause SpeckCause { get; init; }

    /// <summary>Share of the blade that is diffusely yellow, 0..1.</summary>
    public double YellowShare { get; init; }

    /// <summary>How yellow, 0..1, 0.7 by default.</summary>
    public double YellowDepth { get; init; } = 0.7;

    /// <summary>Where the yellow lies.</summary>
    public YellowKind Yellow { get; init; }

    /// <summary>Number of round leaf spots with a rim (a look-alike; dead tissue, browned).</summary>
    public int Spots { get; init; }

    /// <summary>Middle radius of a leaf spot in mm, 1.1 by default.</summary>
    public double SpotMm { get; init; } = 1.1;

    /// <summary>Share of the blade that is scorched from the margin inwards, 0..1.</summary>
    public double ScorchShare { get; init; }

    /// <summary>Share of the blade bitten away at the margin, 0..1.</summary>
    public double BittenShare { get; init; }

    /// <summary>Number of holes.</summary>
    public int Holes { get; init; }

    /// <summary>Middle radius of a hole in mm, 1.6 by default.</summary>
    public double HoleMm { get; init; } = 1.6;

    /// <summary>Grains of dust (a look-alike).</summary>
    public int Dust { get; init; }

    /// <summary>Bright neutral glints of wet or hairy places (a look-alike).</summary>
    public int Glints { get; init; }
}
