using System.Text;

namespace LeafScan.Records;

/// <summary>
/// Joins a letter and the accent that follows it into one character, so that a folder name written by a system that
/// splits accents ("E" + U+0301) and one written by a system that does not ("É") are the same plant. .NET's own
/// normalisation does nothing in invariant mode, in which this tool runs. Covers the Latin letters U+00C0 to U+017F;
/// pairs are the canonical decompositions of the Unicode Character Database.
/// </summary>
internal static class ComposedLetters
{
    private static readonly (char Accent, string Bases, string Composed)[] Pairs =
    [
        ('\u0300', "AEIOUaeiou", "ÀÈÌÒÙàèìòù"),
        ('\u0301', "AEIOUYaeiouyCcLlNnRrSsZz", "ÁÉÍÓÚÝáéíóúýĆćĹĺŃńŔŕŚśŹź"),
        ('\u0302', "AEIOUaeiouCcGgHhJjSsWwYy", "ÂÊÎÔÛâêîôûĈĉĜĝĤĥĴĵŜŝŴŵŶŷ"),
        ('\u0303', "ANOanoIiUu", "ÃÑÕãñõĨĩŨũ"),
        ('\u0304', "AaEeIiOoUu", "ĀāĒēĪīŌōŪū"),
        ('\u0306', "AaEeGgIiOoUu", "ĂăĔĕĞğĬĭŎŏŬŭ"),
        ('\u0307', "CcEeGgIZz", "ĊċĖėĠġİŻż"),
        ('\u0308', "AEIOUaeiouyY", "ÄËÏÖÜäëïöüÿŸ"),
        ('\u030a', "AaUu", "ÅåŮů"),
        ('\u030b', "OoUu", "ŐőŰű"),
        ('\u030c', "CcDdEeLlNnRrSsTtZz", "ČčĎďĚěĽľŇňŘřŠšŤťŽž"),
        ('\u0327', "CcGgKkLlNnRrSsTt", "ÇçĢģĶķĻļŅņŖŗŞşŢţ"),
        ('\u0328', "AaEeIiUu", "ĄąĘęĮįŲų"),
    ];

    public static string Join(string text)
    {
        var joined = new StringBuilder(text.Length);
        foreach (char next in text)
        {
            char whole = joined.Length > 0 ? Compose(joined[^1], next) : '\0';
            if (whole != '\0')
            {
                joined[^1] = whole;
            }
            else
            {
                joined.Append(next);
            }
        }

        return joined.ToString();
    }

    private static char Compose(char letter, char accent)
    {
        foreach ((char known, string bases, string composed) in Pairs)
        {
            if (known == accent)
            {
                int at = bases.IndexOf(letter, StringComparison.Ordinal);
                return at < 0 ? '\0' : composed[at];
            }
        }

        return '\0';
    }
}
