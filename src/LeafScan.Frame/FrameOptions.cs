using LeafScan.Frame.Sheets;

namespace LeafScan.Frame;

/// <summary>How the frame is read.</summary>
public sealed record FrameOptions
{
    /// <summary>Look for sheets and tags; true by default. False leaves every photo without scale.</summary>
    public bool Look { get; init; } = true;

    /// <summary>
    /// Make the paper of a scale sheet neutral before measuring; true by default. How much less the damage of a leaf then hangs on
    /// the colour of the light stands in docs/accuracy.md, Scale sheets.
    /// </summary>
    public bool Balance { get; init; } = true;

    /// <summary>
    /// Make plain white paper neutral, too, where the rim of a photo without a scale sheet is nothing else; true by default, flag
    /// whiteFromPaper. Ignored where <see cref="Balance"/> is false.
    /// </summary>
    public bool PlainPaper { get; init; } = true;

    /// <summary>Long side in pixels of the copy on which markers and tags are found; 800 to 4000, 1600 by default.</summary>
    public int SearchLongSidePx { get; init; } = 1600;

    /// <summary>What the printer made of 100 mm; true to size by default.</summary>
    public PrintedScale Printed { get; init; } = PrintedScale.True;

    /// <summary>Residual on the paper in mm above which the sheet counts as bent; 0.3 by default: flat sheets have 0.15 at most, a corner curled up by some centimetres 0.5.</summary>
    public double BentMm { get; init; } = 0.3;
}
