using System.Text.Json.Serialization;

namespace LeafScan.Leaves.Reading;

/// <summary>
/// What was measured on one leaf of one photo. Coordinates are pixels of the upright, full-size photo, x to the right,
/// y down. A leaf on which nothing was found has zeros, never nulls.
/// </summary>
public sealed record LeafReading
{
    /// <summary>Closed outline of the leaf as it was before it was chewed, as [x, y] corners; no repeated last corner.</summary>
    public required IReadOnlyList<PointPx> Outline { get; init; }

    /// <summary>Area of the leaf as it was before it was chewed, in square pixels.</summary>
    public required double AreaPx { get; init; }

    /// <summary>The same in mm²; null without a scale.</summary>
    public double? AreaMm2 { get; init; }

    /// <summary>Shares of <see cref="AreaPx"/>, adding up to 1.</summary>
    public required LeafShares Shares { get; init; }

    /// <summary>(stippled + yellowed + browned) / (leaf that is there and can be judged), 0..1.</summary>
    public required double Damage { get; init; }

    /// <summary>Lower end of the 90 % interval of <see cref="Damage"/>, 0..1.</summary>
    public required double DamageLow { get; init; }

    /// <summary>Upper end of the 90 % interval of <see cref="Damage"/>, 0..1.</summary>
    public required double DamageHigh { get; init; }

    /// <summary>Number of specks; a lower bound with the flag countIsLowerBound, an estimate with countEstimated; 0, not counted, with specksTooFine.</summary>
    public required int SpeckCount { get; init; }

    /// <summary>Specks per cm² of judged leaf; null without a scale.</summary>
    public double? SpeckDensityPerCm2 { get; init; }

    /// <summary>Median diameter of the specks in pixels; 0 when there are none.</summary>
    public required double SpeckDiameterMedianPx { get; init; }

    /// <summary>Each speck as [x, y, diameter] in pixels.</summary>
    public required IReadOnlyList<SpeckMark> SpeckCentres { get; init; }

    /// <summary>Likely causes, most likely first, with the reasons in words.</summary>
    public required IReadOnlyList<LeafCause> Causes { get; init; }

    /// <summary>Named doubts about this leaf (see <see cref="Photos.Flag"/>).</summary>
    public required IReadOnlyList<string> Flags { get; init; }

    /// <summary>
    /// Mean dark green colour index of the sound foliage, 0 very yellow to 1 dark green
    /// (<see cref="Greenness.ColourIndices.DarkGreen"/>); twigs and whole plants only, null elsewhere and where nothing is sound.
    /// </summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? Greenness { get; init; }

    /// <summary>Share of the foliage that is bright fresh growth, 0..1; it counts as sound. Twigs and whole plants only.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? NewGrowth { get; init; }

    /// <summary>SHA-256 of the healthy photo its colour was compared with; null without one. Twigs and whole plants only.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? HealthyPhoto { get; init; }

    /// <summary>Length of all needles in view, mm; null without a scale, where needles cannot be seen one by one, and where there are scales instead. Twigs only.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? NeedleLengthMm { get; init; }

    /// <summary>Specks per cm of needle that can be judged; null where <see cref="NeedleLengthMm"/> is. Twigs only.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? SpecksPerCmOfNeedle { get; init; }

    /// <summary>What only a whole plant has: gaps, sides, fall colour; null for leaves and twigs.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public CrownReading? Crown { get; init; }
}

/// <summary>A place in the upright photo, in whole pixels. Written to JSON as [x, y].</summary>
/// <param name="X">Pixels from the left edge.</param>
/// <param name="Y">Pixels from the top edge.</param>
public readonly record struct PointPx(int X, int Y);

/// <summary>One pale feeding mark. Written to JSON as [x, y, diameterPx].</summary>
/// <param name="X">Centre, pixels from the left edge.</param>
/// <param name="Y">Centre, pixels from the top edge.</param>
/// <param name="DiameterPx">Diameter of the disc with the speck's area at half of its contrast, in pixels.</param>
public readonly record struct SpeckMark(double X, double Y, double DiameterPx);

/// <summary>A possible cause of what was seen.</summary>
/// <param name="Cause">Name: miteStippling, laceBugStipple, chewing, leafSpot, interveinalYellowing, evenYellowing, sunGlareOnly, sound; on twigs and whole plants also tipBrowning, bandedNeedles, dyingBack, fallColour, newGrowth.</param>
/// <param name="Score">How well the measured features fit, 0..1; scores of different causes need not add up to 1.</param>
/// <param name="Because">Reasons in words, from measured features.</param>
public sealed record LeafCause(string Cause, double Score, IReadOnlyList<string> Because);
