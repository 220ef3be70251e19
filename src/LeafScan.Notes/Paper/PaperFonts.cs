using PdfSharp.Drawing;
using PdfSharp.Fonts;
using PdfSharp.Pdf;

namespace LeafScan.Notes.Paper;

/// <summary>
/// The fonts that are printed with: DejaVu Sans, as Debian's package fonts-dejavu-core installs it. Linux has no font that
/// is always there, and the page must look the same everywhere.
/// </summary>
public static class PaperFonts
{
    /// <summary>Family name.</summary>
    public const string Family = "DejaVu Sans";

    private static readonly Lock Once = new();

    /// <summary>Folder of the two font files.</summary>
    public static string Folder { get; } = "/usr/share/fonts/truetype/dejavu";

    /// <summary>Null when both files are there, else one sentence: what is missing and what to do.</summary>
    public static string? Missing =>
        Resolver.Files.All(name => File.Exists(Path.Combine(Folder, name)))
            ? null
            : $"The font DejaVu Sans is not in {Folder}, so nothing can be printed; nothing was written. Install it (Debian and Ubuntu: apt install fonts-dejavu-core), then run this again.";

    /// <summary>Family for Chinese, Japanese and Korean letters: Droid Sans Fallback, Debian's package fonts-droid-fallback; it may be missing.</summary>
    public const string EastAsian = "Droid Sans Fallback";

    private const string EastAsianFile = "/usr/share/fonts/truetype/droid/DroidSansFallbackFull.ttf";

    private static readonly Lazy<FontTables> Plain = new(() => FontTables.Load(Path.Combine(Folder, Resolver.Files[0])));

    private static readonly Lazy<FontTables> Bold = new(() => FontTables.Load(Path.Combine(Folder, Resolver.Files[1])));

    private static readonly Lazy<FontTables?> East = new(() => File.Exists(EastAsianFile) ? FontTables.Load(EastAsianFile) : null);

    /// <summary>Letters and widths of a face; null when its file is missing.</summary>
    internal static FontTables? TablesOf(string family, bool bold) => family == EastAsian ? East.Value : (bold ? Bold : Plain).Value;

    /// <summary>File of a face.</summary>
    internal static string FileOf(string family, bool bold) => family == EastAsian ? EastAsianFile : Path.Combine(Folder, Resolver.Files[bold ? 1 : 0]);

    /// <summary>A font of a size in mm.</summary>
    /// <param name="sizeMm">Size in mm.</param>
    /// <param name="bold">Bold.</param>
    /// <param name="family">Family.</param>
    /// <param name="whole">Embeds all of its letters and not only those that are used.</param>
    internal static XFont Of(double sizeMm, bool bold, string family = Family, bool whole = false)
    {
        lock (Once)
        {
            GlobalFontSettings.FontResolver ??= new Resolver();
        }

        return new XFont(
            family, XUnit.FromMillimeter(sizeMm).Point, bold ? XFontStyleEx.Bold : XFontStyleEx.Regular,
            new XPdfFontOptions(whole ? PdfFontEmbedding.EmbedCompleteFontFile : PdfFontEmbedding.TryComputeSubset));
    }

    /// <summary>Whether a face must be embedded whole for these words: see <see cref="FontTables.IsOfPartsOfParts"/>.</summary>
    internal static bool NeedsWhole(PaperText text) => TablesOf(text.Family, text.Bold) is { } tables && text.Words.EnumerateRunes().Any(letter => tables.IsOfPartsOfParts(letter.Value));

    /// <summary>Width of one line of text in mm.</summary>
    internal static double WidthMm(string words, double sizeMm, bool bold)
    {
        using XGraphics measure = XGraphics.CreateMeasureContext(new XSize(1000, 1000), XGraphicsUnit.Point, XPageDirection.Downwards);
        return XUnit.FromPoint(measure.MeasureString(words, Of(sizeMm, bold)).Width).Millimeter;
    }

    private sealed class Resolver : IFontResolver
    {
        public static readonly string[] Files = ["DejaVuSans.ttf", "DejaVuSans-Bold.ttf"];

        public FontResolverInfo? ResolveTypeface(string familyName, bool isBold, bool isItalic) => new(familyName == EastAsian ? EastAsianFile : Files[isBold ? 1 : 0]);

        public byte[]? GetFont(string faceName) => File.ReadAllBytes(Path.Combine(Folder, faceName));
    }
}
