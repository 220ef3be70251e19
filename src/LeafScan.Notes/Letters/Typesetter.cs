using System.Globalization;
using System.Text;
using LeafScan.Notes.Paper;

namespace LeafScan.Notes.Letters;

/// <summary>
/// Sets text in lines: Latin, Greek, Cyrillic, Hebrew, Arabic and, where its font is installed, Chinese, Japanese and Korean.
/// Right-to-left letters stand in their order and Arabic ones are joined. A letter that no font here has becomes
/// <see cref="MissingLetter"/>, and <see cref="CanSet"/> tells so before.
/// </summary>
public static class Typesetter
{
    /// <summary>Stands for a letter that cannot be set.</summary>
    public const char MissingLetter = '□';

    /// <summary>Whether every letter of the text can be set as it should look.</summary>
    public static bool CanSet(string text) => Seen(text).All(letter => FamilyOf(letter, bold: false) is not null);

    /// <summary>Width of a text in one line, in mm.</summary>
    /// <param name="text">The text; line breaks count as blanks.</param>
    /// <param name="sizeMm">Size of the font in mm.</param>
    /// <param name="bold">Bold.</param>
    public static double WidthMm(string text, double sizeMm, bool bold) => Seen(text).Sum(letter => Width(letter, bold)) * sizeMm;

    /// <summary>Breaks a text into lines. Line breaks in it are kept; a word that is too long is broken where it must.</summary>
    /// <param name="text">The text.</param>
    /// <param name="sizeMm">Size of the font in mm.</param>
    /// <param name="bold">Bold.</param>
    /// <param name="roomMm">Width of the column.</param>
    public static IReadOnlyList<SetLine> Wrap(string text, double sizeMm, bool bold, double roomMm)
    {
        List<SetLine> lines = [];
        foreach (string paragraph in text.ReplaceLineEndings("\n").Split('\n'))
        {
            IReadOnlyList<Rune> letters = ArabicShapes.Shape(Seen(paragraph));
            int level = LetterOrder.ParagraphLevel(letters);
            int[] levels = LetterOrder.Levels(letters);
            int from = 0;
            do
            {
                int to = LineEnd(letters, from, bold, roomMm / sizeMm);
                lines.Add(Line([.. letters.Skip(from).Take(to - from)], levels.AsSpan(from, to - from), level, sizeMm, bold));
                from = to;
                while (from < letters.Count && letters[from].Value == ' ')
                {
                    from++;
                }
            }
            while (from < letters.Count);
        }

        return lines;
    }

    private static int LineEnd(IReadOnlyList<Rune> letters, int from, bool bold, double room)
    {
        double width = 0;
        int goodEnd = -1;
        for (int i = from; i < letters.Count; i++)
        {
            double next = Width(letters[i], bold);
            bool isMark = Rune.GetUnicodeCategory(letters[i]) == UnicodeCategory.NonSpacingMark;
            if (letters[i].Value == ' ')
            {
                goodEnd = i;
            }
            else if (i > from && !isMark && (IsEastAsian(letters[i].Value) || IsEastAsian(letters[i - 1].Value)))
            {
                goodEnd = i;
            }

            width += next;
            if (width > room + 1e-9 && letters[i].Value != ' ' && !isMark)
            {
                return goodEnd > from ? goodEnd : Math.Max(i, from + 1);
            }
        }

        return letters.Count;
    }

    private static SetLine Line(IReadOnlyList<Rune> letters, ReadOnlySpan<int> levels, int level, double sizeMm, bool bold)
    {
        List<SetPiece> pieces = [];
        double left = 0;
        foreach (string cluster in LetterOrder.OnPaper(letters, levels, level))
        {
            Rune first = Rune.GetRuneAt(cluster, 0);
            string family = FamilyOf(first, bold) ?? PaperFonts.Family;
            string words = FamilyOf(first, bold) is null ? MissingLetter.ToString() : cluster;
            if (pieces.Count > 0 && pieces[^1].Family == family)
            {
                pieces[^1] = pieces[^1] with { Words = pieces[^1].Words + words };
            }
            else
            {
                pieces.Add(new SetPiece(words, family, left));
            }

            left += words.EnumerateRunes().Sum(letter => Width(letter, bold)) * sizeMm;
        }

        return new SetLine(pieces, left, level == 1);
    }

    // Control and steering signs are not printed; every kind of blank is a blank.
    private static List<Rune> Seen(string text)
    {
        List<Rune> letters = [];
        foreach (Rune letter in text.EnumerateRunes())
        {
            UnicodeCategory category = Rune.GetUnicodeCategory(letter);
            if (letter.Value is 0x00A0 or 0x202F)
            {
                letters.Add(new Rune(0x00A0));
            }
            else if (Rune.IsWhiteSpace(letter))
            {
                letters.Add(new Rune(' '));
            }
            else if (category is not (UnicodeCategory.Control or UnicodeCategory.Format))
            {
                letters.Add(letter);
            }
        }

        return letters;
    }

    private static double Width(Rune letter, bool bold)
    {
        string family = FamilyOf(letter, bold) ?? PaperFonts.Family;
        return PaperFonts.TablesOf(family, bold)!.Advance(FamilyOf(letter, bold) is null ? MissingLetter : letter.Value);
    }

    private static string? FamilyOf(Rune letter, bool bold)
    {
        if (IsEastAsian(letter.Value))
        {
            return PaperFonts.TablesOf(PaperFonts.EastAsian, bold)?.Has(letter.Value) == true ? PaperFonts.EastAsian : null;
        }

        return IsSimple(letter.Value) && PaperFonts.TablesOf(PaperFonts.Family, bold)!.Has(letter.Value) ? PaperFonts.Family : null;
    }

    private static bool IsEastAsian(int letter) => letter is (>= 0x2E80 and < 0xA000) or (>= 0xAC00 and < 0xD7B0) or (>= 0xF900 and < 0xFB00) or (>= 0xFF00 and < 0xFFF0) or (>= 0x20000 and < 0x30000);

    // Scripts whose letters change places or shapes in ways that are not done here (Indic, Thai, Syriac, Mongolian and so on) are not set wrongly: not at all.
    private static bool IsSimple(int letter) => letter is < 0x0700 or (>= 0x10A0 and < 0x1100) or (>= 0x1C90 and < 0x1CC0) or (>= 0x1D00 and < 0x2E80) or (>= 0xFB00 and < 0xFE00) or (>= 0xFE70 and < 0xFF00);
}
