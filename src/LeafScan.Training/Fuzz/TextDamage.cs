using System.Text.RegularExpressions;
using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Fuzz;

/// <summary>Damage to tables and documents: values that lie, are missing, or are of another kind.</summary>
internal static partial class TextDamage
{
    private static readonly string[] Values =
    [
        "null", "true", "\"\"", "\"x\"", "-1", "0", "0.5", "1e308", "-1e308", "1e999", "99999999999999999999999999", "9223372036854775807", "-9223372036854775808",
        "2147483648", "NaN", "Infinity", "\"2026-02-30\"", "\"9999-12-31\"", "\"0001-01-01\"", "\"\\u0000\"", "\"\\ud800\"", "\"\\u202e\"", "[]", "{}", "[[]]", "{\"a\":1}", "[null]",
    ];

    /// <summary>Changes one to three values, names or marks.</summary>
    public static string Change(string text, Random random)
    {
        for (int i = random.Next(1, 4); i > 0; i--)
        {
            MatchCollection tokens = Token().Matches(text);
            if (tokens.Count == 0)
            {
                return text + random.Pick(Values);
            }

            Match token = tokens[random.Next(tokens.Count)];
            string instead = random.Next(8) switch
            {
                0 => string.Empty,
                1 => token.Value + token.Value,
                2 => tokens[random.Next(tokens.Count)].Value,
                3 => "\"" + new string('ä', random.Next(1, 5000)) + "\"",
                4 => string.Concat(Enumerable.Repeat(random.Hit(0.5) ? "[" : "{\"a\":", random.Next(1, 3000))),
                _ => random.Pick(Values),
            };
            text = string.Concat(text.AsSpan(0, token.Index), instead, text.AsSpan(token.Index + token.Length));
        }

        return text;
    }

    [GeneratedRegex("""
        "(?:[^"\\]|\\.)*"|-?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?|[A-Za-z]+|[\[\]{},:;\n]
        """, RegexOptions.CultureInvariant)]
    private static partial Regex Token();
}
