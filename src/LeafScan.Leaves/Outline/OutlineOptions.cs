namespace LeafScan.Leaves.Outline;

/// <summary>How leaves are searched for.</summary>
public sealed record OutlineOptions
{
    /// <summary>Longest side of the copy that is searched, in pixels; 640 by default.</summary>
    public int SearchSidePx { get; init; } = 640;

    /// <summary>Smallest leaf, as a share of the frame; 0.01 by default.</summary>
    public double SmallestShare { get; init; } = 0.01;

    /// <summary>A further leaf on a sheet counts when it has at least this share of the largest leaf's area; 0.08 by default.</summary>
    public double SmallestToLargest { get; init; } = 0.08;

    /// <summary>Share of the frame's border that must look like one sheet; 0.55 by default.</summary>
    public double SheetBorderShare { get; init; } = 0.55;

    /// <summary>Colour distance from the paper, in spreads of the paper's own colour, from which a pixel is leaf; 5 by default.</summary>
    public double LeafFromPaper { get; init; } = 5;
}
