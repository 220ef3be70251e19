using System.Text;

namespace LeafScan.Web.Uploads;

/// <summary>
/// Names from a device as labels: what a path could do with them ("..", a leading slash, a control character) is taken out, and no file
/// is ever named after them.
/// </summary>
internal static class PhotoLabel
{
    private const int LongestName = 120;
    private const int MostFolders = 6;

    /// <summary>The last part of a name; "photo" when nothing is left.</summary>
    public static string Name(string? text) => Parts(text) is [.., string last] ? last : "photo";

    /// <summary>The parts of a folder joined by "/"; empty for none.</summary>
    public static string Folder(string? text) => string.Join('/', Parts(text).TakeLast(MostFolders));

    private static List<string> Parts(string? text)
        => [.. (text ?? "").Split('/', '\\').Select(Clean).Where(part => part.Length > 0 && part.Any(letter => letter != '.'))];

    private static string Clean(string part)
    {
        StringBuilder kept = new();
        foreach (char letter in part.Trim())
        {
            if (!char.IsControl(letter) && letter != ':' && kept.Length < LongestName)
            {
                kept.Append(letter);
            }
        }

        // Half of a pair of surrogates is no letter and would not survive being written down.
        return kept.ToString().IsNormalized() || Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(kept.ToString())) == kept.ToString() ? kept.ToString() : "photo";
    }
}
