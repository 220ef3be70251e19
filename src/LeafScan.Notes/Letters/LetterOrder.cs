using System.Globalization;
using System.Text;

namespace LeafScan.Notes.Letters;

/// <summary>
/// In which order the letters of a line stand on paper when some run from right to left: the Unicode Bidirectional Algorithm
/// (UAX #9) with its rules for plain text. Signs that steer the direction by hand are left out before; classes of letters are
/// told by their blocks.
/// </summary>
internal static class LetterOrder
{
    private enum Kind
    {
        Left,
        Right,
        Arabic,
        Number,
        ArabicNumber,
        NumberSign,
        NumberUnit,
        NumberPoint,
        Mark,
        Blank,
        Other,
    }

    private const string Open = "([{<«";
    private const string Close = ")]}>»";

    /// <summary>The level of each letter: even runs to the right, odd to the left.</summary>
    /// <param name="text">A paragraph in the order in which it is read.</param>
    public static int[] Levels(IReadOnlyList<Rune> text)
    {
        Kind[] kinds = [.. text.Select(KindOf)];
        int paragraph = ParagraphLevel(text);
        Kind[] types = Numbers(kinds, paragraph);
        Brackets(text, types, paragraph);
        Neutrals(types, paragraph);
        return [.. types.Select(type => type switch
        {
            Kind.Right => paragraph | 1,
            Kind.Number or Kind.ArabicNumber => 2,
            _ => paragraph == 0 ? 0 : 2,
        })];
    }

    /// <summary>0 for a paragraph from left to right, 1 from right to left: as its first letter that has a direction (P2, P3).</summary>
    public static int ParagraphLevel(IEnumerable<Rune> text)
    {
        Kind first = text.Select(KindOf).FirstOrDefault(kind => kind is Kind.Left or Kind.Right or Kind.Arabic);
        return first is Kind.Right or Kind.Arabic ? 1 : 0;
    }

    /// <summary>One line of the paragraph as it stands on paper, from the left: clusters of a letter with its marks, brackets turned (L1 to L4).</summary>
    public static IReadOnlyList<string> OnPaper(IReadOnlyList<Rune> line, ReadOnlySpan<int> levels, int paragraph)
    {
        List<(string Words, int Level)> clusters = [];
        int last = line.Count;
        while (last > 0 && KindOf(line[last - 1]) == Kind.Blank)
        {
            last--;
        }

        for (int i = 0; i < line.Count; i++)
        {
            int level = i >= last ? paragraph : levels[i];
            string letter = level % 2 == 1 ? Turned(line[i]) : line[i].ToString();
            if (clusters.Count > 0 && KindOf(line[i]) == Kind.Mark)
            {
                clusters[^1] = (clusters[^1].Words + letter, clusters[^1].Level);
            }
            else
            {
                clusters.Add((letter, level));
            }
        }

        int highest = clusters.Count == 0 ? 0 : clusters.Max(cluster => cluster.Level);
        for (int level = highest; level > 0; level--)
        {
            for (int from = 0; from < clusters.Count; from++)
            {
                int to = from;
                while (to < clusters.Count && clusters[to].Level >= level)
                {
                    to++;
                }

                if (to > from)
                {
                    clusters.Reverse(from, to - from);
                    from = to;
                }
            }
        }

        return [.. clusters.Select(cluster => cluster.Words)];
    }

    private static string Turned(Rune letter)
    {
        string word = letter.ToString();
        int at = Open.IndexOf(word, StringComparison.Ordinal);
        if (at >= 0)
        {
            return Close[at].ToString();
        }

        at = Close.IndexOf(word, StringComparison.Ordinal);
        return at >= 0 ? Open[at].ToString() : word;
    }

    // Rules W1 to W7.
    private static Kind[] Numbers(Kind[] kinds, int paragraph)
    {
        Kind start = paragraph == 1 ? Kind.Right : Kind.Left;
        Kind[] types = [.. kinds];
        Kind before = start;
        for (int i = 0; i < types.Length; i++)
        {
            types[i] = types[i] == Kind.Mark ? before : types[i];
            before = types[i];
        }

        Kind strong = start;
        for (int i = 0; i < types.Length; i++)
        {
            strong = types[i] is Kind.Left or Kind.Right or Kind.Arabic ? types[i] : strong;
            types[i] = types[i] == Kind.Number && strong == Kind.Arabic ? Kind.ArabicNumber : types[i];
        }

        types = [.. types.Select(type => type == Kind.Arabic ? Kind.Right : type)];
        for (int i = 1; i + 1 < types.Length; i++)
        {
            Kind beside = types[i - 1];
            bool joins = types[i] == Kind.NumberPoint ? beside is Kind.Number or Kind.ArabicNumber : types[i] == Kind.NumberSign && beside == Kind.Number;
            types[i] = joins && types[i + 1] == beside ? beside : types[i];
        }

        for (int i = 0; i < types.Length; i++)
        {
            int end = i;
            while (end < types.Length && types[end] == Kind.NumberUnit)
            {
                end++;
            }

            bool beside = end > i && ((i > 0 && types[i - 1] == Kind.Number) || (end < types.Length && types[end] == Kind.Number));
            for (; i < end; i++)
            {
                types[i] = beside ? Kind.Number : Kind.Other;
            }
        }

        strong = start;
        for (int i = 0; i < types.Length; i++)
        {
            types[i] = types[i] is Kind.NumberSign or Kind.NumberPoint or Kind.NumberUnit ? Kind.Other : types[i];
            strong = types[i] is Kind.Left or Kind.Right ? types[i] : strong;
            types[i] = types[i] == Kind.Number && strong == Kind.Left ? Kind.Left : types[i];
        }

        return types;
    }

    // Rule N0: a pair of brackets goes with what it holds.
    private static void Brackets(IReadOnlyList<Rune> text, Kind[] types, int paragraph)
    {
        Kind along = paragraph == 1 ? Kind.Right : Kind.Left;
        Stack<(int At, int Sort)> open = new();
        List<(int From, int To)> pairs = [];
        for (int i = 0; i < types.Length; i++)
        {
            string letter = text[i].ToString();
            int sort = "([{".IndexOf(letter, StringComparison.Ordinal);
            int close = ")]}".IndexOf(letter, StringComparison.Ordinal);
            if (types[i] == Kind.Other && sort >= 0)
            {
                open.Push((i, sort));
            }
            else if (types[i] == Kind.Other && close >= 0 && open.Any(entry => entry.Sort == close))
            {
                (int At, int Sort) opening;
                do
                {
                    opening = open.Pop();
                }
                while (opening.Sort != close);
                pairs.Add((opening.At, i));
            }
        }

        foreach ((int from, int to) in pairs.OrderBy(pair => pair.From))
        {
            HashSet<Kind> inside = [.. types[(from + 1)..to].Select(Strong).OfType<Kind>()];
            if (inside.Contains(along))
            {
                types[from] = types[to] = along;
            }
            else if (inside.Count > 0)
            {
                Kind context = types[..from].Reverse().Select(Strong).OfType<Kind>().FirstOrDefault(along);
                types[from] = types[to] = context == along ? along : context;
            }
        }
    }

    // Rules N1 and N2.
    private static void Neutrals(Kind[] types, int paragraph)
    {
        Kind along = paragraph == 1 ? Kind.Right : Kind.Left;
        for (int i = 0; i < types.Length; i++)
        {
            int end = i;
            while (end < types.Length && Strong(types[end]) is null)
            {
                end++;
            }

            if (end == i)
            {
                continue;
            }

            Kind before = i == 0 ? along : Strong(types[i - 1])!.Value;
            Kind after = end == types.Length ? along : Strong(types[end])!.Value;
            Array.Fill(types, before == after ? before : along, i, end - i);
            i = end;
        }
    }

    // Numbers count as right to left beside neutrals.
    private static Kind? Strong(Kind type) => type switch
    {
        Kind.Left => Kind.Left,
        Kind.Right or Kind.Arabic or Kind.Number or Kind.ArabicNumber => Kind.Right,
        _ => null,
    };

    private static Kind KindOf(Rune letter)
    {
        UnicodeCategory category = Rune.GetUnicodeCategory(letter);
        return category is UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark
            ? Kind.Mark
            : letter.Value switch
            {
                >= '0' and <= '9' or >= 0x06F0 and <= 0x06F9 => Kind.Number,
                >= 0x0660 and <= 0x0669 or 0x066B or 0x066C => Kind.ArabicNumber,
                '+' or '-' or 0x2212 => Kind.NumberSign,
                '#' or '$' or '%' or '°' or '‰' or '€' or '£' or '±' or 0x066A => Kind.NumberUnit,
                ',' or '.' or '/' or ':' or 0x00A0 or 0x202F => Kind.NumberPoint,
                ' ' or '\t' => Kind.Blank,
                >= 0x0590 and < 0x0600 or >= 0x07C0 and < 0x0860 or >= 0xFB1D and < 0xFB50 => Kind.Right,
                >= 0x0600 and < 0x07C0 or >= 0x0860 and < 0x0900 or >= 0xFB50 and < 0xFE00 or >= 0xFE70 and < 0xFEFF => IsLetter(category) ? Kind.Arabic : Kind.Other,
                _ => IsLetter(category) || category == UnicodeCategory.SpacingCombiningMark ? Kind.Left : Kind.Other,
            };
    }

    private static bool IsLetter(UnicodeCategory category) => category <= UnicodeCategory.OtherLetter || category is UnicodeCategory.LetterNumber;
}
