namespace LeafScan.Leaves.Reading;

/// <summary>What only a whole plant has. Left and right, high and low are those of the photo.</summary>
public sealed record CrownReading
{
    /// <summary>Share of the plant's own smoothed outline that is gap, beyond what a dense plant has, 0..1.</summary>
    public required double Thinning { get; init; }

    /// <summary>Lower end of the 90 % interval of <see cref="Thinning"/>, 0..1.</summary>
    public required double ThinningLow { get; init; }

    /// <summary>Upper end of the 90 % interval of <see cref="Thinning"/>, 0..1.</summary>
    public required double ThinningHigh { get; init; }

    /// <summary>left, right, or none where neither side stands out beyond noise.</summary>
    public required string WorstSide { get; init; }

    /// <summary>low, middle, high, or none where no height stands out beyond noise.</summary>
    public required string WorstHeight { get; init; }

    /// <summary>Share of the foliage in fall colour, 0..1; it counts as sound.</summary>
    public required double FallColour { get; init; }

    /// <summary>The six sectors: left and right half, high, middle and low third of the outline.</summary>
    public required IReadOnlyList<CrownSector> Sectors { get; init; }
}

/// <summary>One sixth of a plant's outline.</summary>
/// <param name="Side">left or right.</param>
/// <param name="Height">high, middle or low.</param>
/// <param name="Discoloured">Yellowed and browned share of the foliage in it that can be judged, 0..1; null without any.</param>
/// <param name="Thinning">Gap share of it, 0..1.</param>
/// <param name="Greenness">Mean dark green colour index of all foliage in it, 0..1; null without any.</param>
public sealed record CrownSector(string Side, string Height, double? Discoloured, double Thinning, double? Greenness);
