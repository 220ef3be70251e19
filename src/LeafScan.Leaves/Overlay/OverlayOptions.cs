namespace LeafScan.Leaves.Overlay;

/// <summary>How large the overlay is drawn. Nothing here changes a measurement.</summary>
public sealed record OverlayOptions
{
    /// <summary>Longest side of the photo part in pixels; 2000 by default, 400 to 8000. A larger photo is scaled down.</summary>
    public int LongSideMaxPx { get; init; } = 2000;

    /// <summary>
    /// A photo smaller than this is enlarged by a whole number, at most 4 times, so that lines do not hide it; 900 by
    /// default.
    /// </summary>
    public int LongSideMinPx { get; init; } = 900;

    /// <summary>Whether a legend in words stands below; true by default. Without it the overlay has exactly the photo's shape, to be laid over it.</summary>
    public bool Legend { get; init; } = true;
}
