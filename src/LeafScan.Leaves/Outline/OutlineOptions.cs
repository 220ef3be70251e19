namespace LeafScan.Leaves.Outline;

/// <summary>How leaves are looked for in a photo.</summary>
public sealed record OutlineOptions
{
    /// <summary>Long side in pixels of the copy on which leaves are found before their edge is drawn at full size; 200 to 2000, default 640.</summary>
    public int SearchLongSidePx { get; init; } = 640;

    /// <summary>
    /// Look with the learned network in photos without a sheet, where its file is present; true by default. False goes by
    /// colour, focus and place alone, which is also what happens without the file.
    /// </summary>
    public bool Learned { get; init; } = true;

    /// <summary>Share of the frame below which a patch is not taken for a leaf; 0..1, default 0.004.</summary>
    public double LeastLeafShare { get; init; } = 0.004;

    /// <summary>
    /// Area in mm² below which a patch on a scale sheet is not taken for a leaf, where that is less than <see cref="LeastLeafShare"/>;
    /// 1 or more, default 50: a leaflet or the smaller leaf of a boxwood, which is 0.1 % of a photo of an A4 sheet.
    /// </summary>
    public double LeastLeafMm2 { get; init; } = 50;

    /// <summary>Leaves whose longer side is below this many pixels get the flag leafTooSmall; default 200.</summary>
    public int SmallLeafPx { get; init; } = 200;

    /// <summary>Most leaves given back, largest first; 1 or more, default 40.</summary>
    public int MostLeaves { get; init; } = 40;
}
