namespace LeafScan.Training.Rendering.TapSheets;

/// <summary>What a drawn tap sheet must have.</summary>
public sealed record TapWish
{
    /// <summary>Length in pixels of a usual mite of 0.4 mm; null for one by the level.</summary>
    public double? MiteLengthPx { get; init; }

    /// <summary>What goes wrong.</summary>
    public TapTrouble Trouble { get; init; }

    /// <summary>True for a sheet on which nothing lives.</summary>
    public bool NoneAlive { get; init; }
}
