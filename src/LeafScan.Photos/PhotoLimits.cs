namespace LeafScan.Photos;

/// <summary>What is refused before anything is decoded.</summary>
public sealed record PhotoLimits
{
    /// <summary>Largest file in bytes; 200 MB by default.</summary>
    public long LargestFileBytes { get; init; } = 200_000_000;

    /// <summary>Largest picture in pixels, width times height; 120 million by default. A small file can claim far more.</summary>
    public long LargestPicturePx { get; init; } = 120_000_000;

    /// <summary>Shortest side in pixels; 64 by default. Below that there is nothing to measure.</summary>
    public int ShortestSidePx { get; init; } = 64;
}
