using LeafScan.Frame.Sheets;

namespace LeafScan.Notes.Tags;

/// <summary>How tags are laid out on a page: three to a row, cut along the lines.</summary>
/// <param name="Paper">The paper.</param>
public sealed record TagLayout(PaperSize Paper)
{
    /// <summary>Side of the printed QR code without its quiet zone, in mm.</summary>
    /// <remarks>LeafScan reads a code from four pixels to a square on (docs/method.md, Printing), on its copy of 1,600 pixels: a short code where the photo shows up to 32 cm.</remarks>
    public const double CodeSideMm = 20;

    /// <summary>Smallest square of the code in mm; smaller ones are lost to dirt (common practice, no source).</summary>
    public const double LeastModuleMm = 0.5;

    /// <summary>White paper left of the QR code: four squares of the largest code (25 squares a side need 3.2 mm), as the standard asks.</summary>
    public const double WhiteMm = 4;

    /// <summary>Height of a tag.</summary>
    public const double TagHeightMm = 32;

    /// <summary>White paper round all tags.</summary>
    public const double EdgeMm = 10;

    /// <summary>Tags in a row.</summary>
    public const int Across = 3;

    /// <summary>Width of a tag.</summary>
    public double TagWidthMm => (Paper.WidthMm - 2 * EdgeMm) / Across;

    /// <summary>Rows on a page.</summary>
    public int Down => (int)((Paper.HeightMm - 2 * EdgeMm) / TagHeightMm);
}
