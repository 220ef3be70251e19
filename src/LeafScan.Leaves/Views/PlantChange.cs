namespace LeafScan.Leaves.Views;

/// <summary>What has changed on a whole plant between two photos from the same place. Positive is more of it later.</summary>
public sealed record PlantChange
{
    /// <summary>Change of the discoloured share of the foliage, -1 to 1; null where one photo has none to judge.</summary>
    public required double? Discoloured { get; init; }

    /// <summary>Change of the share of the crown that is gap, -1 to 1.</summary>
    public required double Thinning { get; init; }

    /// <summary>Change of the dark green colour index of all foliage, the later light made that of the earlier by what both photos show around the plant; null without foliage.</summary>
    public required double? Greenness { get; init; }

    /// <summary>The same in each sixth of the crown.</summary>
    public required IReadOnlyList<SectorChange> Sectors { get; init; }

    /// <summary>Places that look alike in both photos and agree on how they lie over one another.</summary>
    public required int AgreeingPlaces { get; init; }

    /// <summary>Overlap of the crown's outlines once lined up, 0..1.</summary>
    public required double Overlap { get; init; }

    /// <summary>Change of discoloured foliage or of gaps below which the same plant, photographed twice, differs as much (renders, docs/accuracy.md).</summary>
    public const double Noise = 0.05;
}

/// <summary>Change in one sixth of a plant.</summary>
/// <param name="Side">left or right of the earlier photo.</param>
/// <param name="Height">high, middle or low.</param>
/// <param name="Discoloured">Change of the discoloured share, -1 to 1; null where one photo has no foliage there.</param>
/// <param name="Thinning">Change of the gap share, -1 to 1.</param>
/// <param name="Greenness">Change of the dark green colour index; null where one photo has no foliage there.</param>
public sealed record SectorChange(string Side, string Height, double? Discoloured, double Thinning, double? Greenness)
{
    /// <summary>worse, better or same: same within <see cref="PlantChange.Noise"/>.</summary>
    public string Word
    {
        get
        {
            double[] clear = [.. new[] { Discoloured ?? 0, Thinning }.Where(change => Math.Abs(change) >= PlantChange.Noise)];
            return clear.Length == 0 ? "same" : clear.Sum() > 0 ? "worse" : "better";
        }
    }
}
