using System.Globalization;
using System.Text;

namespace LeafScan.Notes.Letters;

/// <summary>
/// Arabic and Persian letters in the form that fits their neighbours (Unicode, chapter 9.2 and the blocks Arabic Presentation
/// Forms-A and -B): the font draws what it is given and joins nothing by itself. Letters without such forms stay as they are.
/// </summary>
internal static class ArabicShapes
{
    private const int Lam = 0x0644;
    private const int Tatweel = 0x0640;

    // Letter, first of its forms (alone, final, initial, medial), how many forms: two join to the letter before only.
    private static readonly Dictionary<int, (int First, int Count)> Forms = Build();

    // Lam with an alef is one letter, alone and final.
    private static readonly Dictionary<int, int> LamAlef = new() { [0x0622] = 0xFEF5, [0x0623] = 0xFEF7, [0x0625] = 0xFEF9, [0x0627] = 0xFEFB };

    /// <summary>The letters in their forms; text without Arabic is given back as it is.</summary>
    public static IReadOnlyList<Rune> Shape(IReadOnlyList<Rune> text)
    {
        if (!text.Any(letter => Forms.ContainsKey(letter.Value)))
        {
            return text;
        }

        List<Rune> shaped = [];
        for (int i = 0; i < text.Count; i++)
        {
            int letter = text[i].Value;
            bool joinsBefore = Neighbour(text, i, -1) is { } before && JoinsForward(before);
            if (letter == Lam && Neighbour(text, i, 1) is { } alef && LamAlef.TryGetValue(alef, out int pair) && text[i + 1].Value == alef)
            {
                shaped.Add(new Rune(pair + (joinsBefore ? 1 : 0)));
                i++;
                continue;
            }

            if (!Forms.TryGetValue(letter, out (int First, int Count) forms) || forms.Count == 1)
            {
                shaped.Add(text[i]);
                continue;
            }

            bool joinsAfter = forms.Count == 4 && Neighbour(text, i, 1) is { } after && JoinsBackward(after);
            shaped.Add(new Rune(forms.First + (joinsBefore ? 1 : 0) + (joinsAfter ? 2 : 0)));
        }

        return shaped;
    }

    // The next letter that is no mark above or below.
    private static int? Neighbour(IReadOnlyList<Rune> text, int at, int step)
    {
        for (int i = at + step; i >= 0 && i < text.Count; i += step)
        {
            if (Rune.GetUnicodeCategory(text[i]) != UnicodeCategory.NonSpacingMark)
            {
                return text[i].Value;
            }
        }

        return null;
    }

    private static bool JoinsForward(int letter) => letter == Tatweel || (Forms.TryGetValue(letter, out (int First, int Count) forms) && forms.Count == 4);

    private static bool JoinsBackward(int letter) => letter == Tatweel || (Forms.TryGetValue(letter, out (int First, int Count) forms) && forms.Count > 1);

    private static Dictionary<int, (int First, int Count)> Build()
    {
        Dictionary<int, (int, int)> forms = new()
        {
            [0x067E] = (0xFB56, 4),
            [0x0686] = (0xFB7A, 4),
            [0x0698] = (0xFB8A, 2),
            [0x06A9] = (0xFB8E, 4),
            [0x06AF] = (0xFB92, 4),
            [0x06CC] = (0xFBFC, 4),
        };

        // The block Forms-B follows the alphabet: hamza alone, then two or four forms a letter.
        int next = 0xFE80;
        foreach (int letter in Enumerable.Range(0x0621, 0x063A - 0x0621 + 1).Concat(Enumerable.Range(0x0641, 0x064A - 0x0641 + 1)))
        {
            int count = letter == 0x0621 ? 1
                : letter is 0x0622 or 0x0623 or 0x0624 or 0x0625 or 0x0627 or 0x0629 or (>= 0x062F and <= 0x0632) or 0x0648 or 0x0649 ? 2 : 4;
            forms[letter] = (next, count);
            next += count;
        }

        return forms;
    }
}
