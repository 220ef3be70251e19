using System.Globalization;

namespace LeafScan.Cli.Screen;

/// <summary>Small pieces of text that several screens share.</summary>
internal static class Words
{
    /// <summary>"1 photo", "2 photos".</summary>
    public static string Count(int count, string one, string? many = null) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? one : many ?? one + "s")}");

    /// <summary>A share 0..1 as "8.2".</summary>
    public static string Percent(double share) => (share * 100).ToString("0.0", CultureInfo.InvariantCulture);

    /// <summary>
    /// Text from outside, such as a file name, made safe for a line on the screen: control characters (line breaks,
    /// escape sequences that could repaint the terminal) become "?".
    /// </summary>
    public static string OneLine(string text) =>
        text.Any(char.IsControl) ? string.Concat(text.Select(letter => char.IsControl(letter) ? '?' : letter)) : text;
}
