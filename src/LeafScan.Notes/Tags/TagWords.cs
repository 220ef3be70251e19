using System.Globalization;
using System.Text;
using LeafScan.Notes.Paper;

namespace LeafScan.Notes.Tags;

/// <summary>Fits the plant's code and name into the room beside the QR code.</summary>
internal static class TagWords
{
    private const double LargestMm = 7;

    private const double LeastOneLineMm = 4;

    /// <summary>Height of all lines of a code together.</summary>
    private const double CodeHeightMm = 14;

    private static readonly double[] WrappedSizesMm = [LeastOneLineMm, 3.4, 2.8];

    /// <summary>From one baseline to the next, in font sizes.</summary>
    public const double LineStep = 1.2;

    /// <summary>Whether words can be set as they should look. Letters that join or run from right to left cannot, nor can signs that are not seen.</summary>
    public static bool CanSet(string words) => words.EnumerateRunes().All(rune =>
        rune.Value is >= 0x20 and < 0x590 or >= 0x1E00 and < 0x2070 && IsSeen(rune));

    /// <summary>False for control, joining and direction signs and for halves of letters.</summary>
    public static bool IsSeen(Rune rune) => rune != Rune.ReplacementChar && Rune.GetUnicodeCategory(rune)
        is not (UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator or UnicodeCategory.PrivateUse or UnicodeCategory.OtherNotAssigned);

    /// <summary>The whole code in as few and as large lines as there is room for; null when there is none.</summary>
    public static (IReadOnlyList<string> Lines, double SizeMm)? Code(string code, double roomMm)
    {
        double size = Math.Min(LargestMm, LargestMm * roomMm / PaperFonts.WidthMm(code, LargestMm, bold: true));
        if (size >= LeastOneLineMm)
        {
            return ([code], size);
        }

        foreach (double smaller in WrappedSizesMm)
        {
            int most = (int)(CodeHeightMm / (smaller * LineStep));
            List<string> lines = Wrap(code, smaller, roomMm, most + 1);
            if (lines.Count <= most)
            {
                return (lines, smaller);
            }
        }

        return null;
    }

    /// <summary>The words, or as many of their first letters as there is room for with an ellipsis.</summary>
    public static string Name(string words, double sizeMm, double roomMm)
    {
        if (PaperFonts.WidthMm(words, sizeMm, bold: false) <= roomMm)
        {
            return words;
        }

        int keep = Math.Min(words.Length, 100);
        while (keep > 1 && PaperFonts.WidthMm(Cut(words, keep), sizeMm, bold: false) > roomMm)
        {
            keep--;
        }

        return Cut(words, keep);
    }

    /// <summary>The first letters and an ellipsis.</summary>
    public static string Cut(string words, int length)
    {
        if (words.Length <= length)
        {
            return words;
        }

        // Not through the middle of a letter made of two parts.
        int keep = char.IsHighSurrogate(words[length - 1]) ? length - 1 : length;
        return words[..keep].TrimEnd() + "…";
    }

    // Breaks after a blank or a mark where one stands in the second half of the line.
    private static List<string> Wrap(string code, double sizeMm, double roomMm, int most)
    {
        List<string> lines = [];
        string rest = code;
        while (rest.Length > 0 && lines.Count < most)
        {
            int fits = Math.Min(rest.Length, 100);
            while (fits > 1 && PaperFonts.WidthMm(rest[..fits].TrimEnd(), sizeMm, bold: true) > roomMm)
            {
                fits--;
            }

            int at = fits == rest.Length ? -1 : rest.LastIndexOfAny([' ', '-', '/', '.', '_', ':'], fits - 1);
            int take = at >= fits / 2 ? at + 1 : fits;
            lines.Add(rest[..take].TrimEnd());
            rest = rest[take..].TrimStart();
        }

        return lines;
    }
}
