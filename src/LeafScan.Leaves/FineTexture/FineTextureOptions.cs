namespace LeafScan.Leaves.FineTexture;

/// <summary>When and how stippling is read from texture, because specks have too few pixels to be counted.</summary>
public sealed record FineTextureOptions
{
    /// <summary>A leaf shorter than this, in pixels of the photo, is read by its texture; 400 by default, 0 switches it off.</summary>
    public int BelowLeafPx { get; init; } = 400;

    /// <summary>
    /// With at least this many specks found one by one the count stands, small leaf or not; 20 by default. Fewer are more
    /// often glints and rims of spots: on 30 sound leaves of 256-pixel photos in hard sun there were up to 16.
    /// </summary>
    public int CountStandsFrom { get; init; } = 20;

    /// <summary>Length to which a larger leaf is shrunk before its texture is read, in pixels; 240 by default.</summary>
    public int ReadAtPx { get; init; } = 240;

    /// <summary>
    /// Mean dot energy (see <see cref="TextureFeatures.DotEnergy"/>) that plain sound leaves reach; 0.0001 by default. Measured
    /// on sound leaves shrunk to this size.
    /// </summary>
    public double SoundDotEnergy { get; init; } = 0.0001;

    /// <summary>
    /// Stippled share per dot energy; 180 by default. From leaves with painted specks of known area shrunk to 220 pixels; the
    /// single leaf may lie three times off, which is what the interval says.
    /// </summary>
    public double SharePerDotEnergy { get; init; } = 180;
}
