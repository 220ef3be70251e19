using System.Globalization;
using System.Text;

namespace LeafScan.Records;

/// <summary>
/// Names as people type them and as folders carry them. Two names that differ only in letter case, in doubled or
/// outer spaces or in how an accent is encoded are the same name.
/// </summary>
public static class NameText
{
    /// <summary>Longest name that is kept, in UTF-16 characters.</summary>
    public const int LongestName = 80;

    /// <summary>Longest name that people call a plant by: it finds nothing and names no folder, so it may be a whole sentence.</summary>
    public const int LongestCalledName = 400;

    /// <summary>
    /// The name as it is kept and shown: outer spaces gone, inner ones single, accents joined to their letters.
    /// Null when nothing is left that can be seen, when it is longer than <paramref name="longest"/> or holds control characters.
    /// </summary>
    /// <param name="name">As it was typed.</param>
    /// <param name="longest">Longest that is kept, <see cref="LongestName"/> by default.</param>
    public static string? Clean(string? name, int longest = LongestName)
    {
        if (name is null)
        {
            return null;
        }

        var kept = new StringBuilder(name.Length);
        foreach (char letter in name)
        {
            if (char.IsControl(letter))
            {
                return null;
            }

            if (!char.IsWhiteSpace(letter))
            {
                kept.Append(letter);
            }
            else if (kept.Length > 0 && kept[^1] != ' ')
            {
                kept.Append(' ');
            }
        }

        string clean = ComposedLetters.Join(kept.ToString().TrimEnd());
        return clean.Length > longest || !clean.Any(IsSeen) ? null : clean;
    }

    // A mark that only turns the direction of writing or joins letters shows nothing by itself.
    private static bool IsSeen(char letter) => letter != ' ' && CharUnicodeInfo.GetUnicodeCategory(letter) != UnicodeCategory.Format;

    /// <summary>The form in which names are compared; <paramref name="cleanName"/> comes from <see cref="Clean"/>.</summary>
    public static string Key(string cleanName) => cleanName.ToUpperInvariant();

    internal static string CleanOrThrow(string? name, string whatItNames, int longest = LongestName)
        => Clean(name, longest) ?? throw new RecordException(
            RecordTrouble.WrongValue,
            $"“{(name?.Length > LongestName ? name[..LongestName] + "..." : name)}” cannot be {whatItNames}.",
            "Nothing was written.",
            $"Use 1 to {longest} characters that can be seen, without line breaks.");
}
