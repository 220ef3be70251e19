using LeafScan.Frame.Tags;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Frame;

/// <summary>What lies in the frame besides the leaf. "Nothing" is a reading too: no sheet, no tag, no scale.</summary>
public sealed record FrameReading
{
    /// <summary>Nothing was found.</summary>
    public static readonly FrameReading Nothing = new();

    /// <summary>The scale sheet as it lies in the photo; null when none was seen.</summary>
    public SheetView? Sheet { get; init; }

    /// <summary>Plant tags that could be read, in no order.</summary>
    public IReadOnlyList<TagSighting> Tags { get; init; } = [];

    /// <summary>
    /// White of plain paper that fills the rim of a photo without a scale sheet, linear light 0 to 1, B, G, R; null where there is none or
    /// where the light is neutral already.
    /// </summary>
    public Vec3d? PaperWhite { get; init; }

    /// <summary>Names from <see cref="Photos.Flag"/>; <c>noScale</c> when nothing gives one.</summary>
    public IReadOnlyList<string> Flags { get; init; } = [];

    /// <summary>The same for a photo whose rim is no paper, whatever it looks like: of a whole plant before a wall.</summary>
    public FrameReading WithoutPaper() =>
        PaperWhite is null ? this : this with { PaperWhite = null, Flags = [.. Flags.Where(flag => flag != Flag.WhiteFromPaper.Name)] };

    /// <summary>
    /// Pixels per true mm about a place in the photo: from the sheet, else from a tag, else null. A tag's is that of the
    /// tag's own distance: right for a leaf beside it.
    /// </summary>
    /// <param name="xPx">Column in the photo.</param>
    /// <param name="yPx">Row in the photo.</param>
    public double? PixelsPerMmAt(double xPx, double yPx) => Sheet?.PixelsPerMmAt(xPx, yPx) ?? (Tags.Count > 0 ? Tags[0].PixelsPerMm : null);

    /// <summary>Likely error of the scale, as a share of it (one standard deviation); null without scale.</summary>
    public double? ScaleUncertainty => Sheet?.ScaleUncertainty ?? (Tags.Count > 0 ? TagSighting.ScaleUncertainty : null);
}

/// <summary>A plant tag in the photo.</summary>
/// <param name="Text">What it says.</param>
/// <param name="XPx">Its middle, column.</param>
/// <param name="YPx">Its middle, row.</param>
/// <param name="PixelsPerMm">Scale by its printed side.</param>
public sealed record TagSighting(TagText Text, double XPx, double YPx, double PixelsPerMm)
{
    /// <summary>A tag is small and seldom lies quite flat beside the leaf: some 5 % (design choice, no source).</summary>
    public const double ScaleUncertainty = 0.05;
}
