using LeafScan.Frame.Sheets;

namespace LeafScan.Notes.Paper;

/// <summary>One printed page as plain shapes in mm, before anything is known of PDF or SVG.</summary>
/// <param name="WidthMm">Width of the paper.</param>
/// <param name="HeightMm">Height of the paper.</param>
/// <param name="Title">What the page is, for the reader of the file; not printed.</param>
/// <param name="Shapes">In the order of drawing; the origin is the upper left corner.</param>
public sealed record PaperPage(double WidthMm, double HeightMm, string Title, IReadOnlyList<PaperShape> Shapes)
{
    /// <summary>The same as the page in words, for who cannot see it; null for none.</summary>
    public string? Description { get; init; }
}

/// <summary>Something printed on a page.</summary>
public abstract record PaperShape
{
    /// <summary>A colour in place of the grey; null, the default, for grey. It must be told apart by its lightness too, for grey printers.</summary>
    public PaperInk? Ink { get; init; }
}

/// <summary>A colour, as sRGB levels 0 to 255.</summary>
/// <param name="Red">Red.</param>
/// <param name="Green">Green.</param>
/// <param name="Blue">Blue.</param>
public readonly record struct PaperInk(byte Red, byte Green, byte Blue)
{
    /// <summary>A grey.</summary>
    public static PaperInk OfGrey(byte level) => new(level, level, level);
}

/// <summary>A filled round dot, with a white one inside when it is hollow.</summary>
/// <param name="XMm">Middle.</param>
/// <param name="YMm">Middle.</param>
/// <param name="RadiusMm">Radius.</param>
/// <param name="Grey">sRGB level, 0 black to 255 white.</param>
public sealed record RoundDot(double XMm, double YMm, double RadiusMm, byte Grey = 0) : PaperShape
{
    /// <summary>White inside; false by default.</summary>
    public bool Hollow { get; init; }
}

/// <summary>A picture.</summary>
/// <param name="LeftMm">Left edge.</param>
/// <param name="TopMm">Upper edge.</param>
/// <param name="WidthMm">Width.</param>
/// <param name="HeightMm">Height.</param>
/// <param name="Jpeg">A JPEG file without metadata.</param>
public sealed record PaperPicture(double LeftMm, double TopMm, double WidthMm, double HeightMm, ReadOnlyMemory<byte> Jpeg) : PaperShape;

/// <summary>A filled rectangle.</summary>
/// <param name="LeftMm">Left edge.</param>
/// <param name="TopMm">Upper edge.</param>
/// <param name="WidthMm">Width.</param>
/// <param name="HeightMm">Height.</param>
/// <param name="Grey">sRGB level, 0 black to 255 white.</param>
public sealed record FilledBox(double LeftMm, double TopMm, double WidthMm, double HeightMm, byte Grey = 0) : PaperShape;

/// <summary>
/// Filled rectangles that are one shape, such as the squares of a code. Drawn one by one, a viewer that smooths edges would
/// show pale seams between neighbours.
/// </summary>
/// <param name="Areas">The rectangles; they may touch and do not overlap.</param>
/// <param name="Grey">sRGB level, 0 black to 255 white.</param>
public sealed record FilledBoxes(IReadOnlyList<SheetArea> Areas, byte Grey = 0) : PaperShape;

/// <summary>A straight line.</summary>
/// <param name="X1Mm">From.</param>
/// <param name="Y1Mm">From.</param>
/// <param name="X2Mm">To.</param>
/// <param name="Y2Mm">To.</param>
/// <param name="WidthMm">How thick.</param>
/// <param name="Grey">sRGB level, 0 black to 255 white.</param>
public sealed record ThinLine(double X1Mm, double Y1Mm, double X2Mm, double Y2Mm, double WidthMm, byte Grey = 0) : PaperShape;

/// <summary>One line of text.</summary>
/// <param name="XMm">Left end, or the middle when centred.</param>
/// <param name="BaselineMm">Height of the baseline.</param>
/// <param name="SizeMm">Size of the font (its em) in mm.</param>
/// <param name="Words">What it says.</param>
public sealed record PaperText(double XMm, double BaselineMm, double SizeMm, string Words) : PaperShape
{
    /// <summary>Bold; false by default.</summary>
    public bool Bold { get; init; }

    /// <summary>Centred on <see cref="XMm"/>; false by default.</summary>
    public bool Centred { get; init; }

    /// <summary>sRGB level, 0 black by default.</summary>
    public byte Grey { get; init; }

    /// <summary>Family of the font; <see cref="PaperFonts.Family"/> by default.</summary>
    public string Family { get; init; } = PaperFonts.Family;
}
