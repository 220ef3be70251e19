using System.Text;

namespace LeafScan.Records;

/// <summary>Age and label of the leaf on a photo, as told by where it lies.</summary>
/// <param name="Age">How old; null when not told.</param>
/// <param name="Tag">Label of a leaf that is photographed again on each walk; null for a leaf picked that day.</param>
public sealed record LeafWords(LeafGrowth? Age, string? Tag);

/// <summary>
/// Reads three words from the folders of a walk and from file names: <c>new-growth</c>, <c>old-growth</c> and <c>tagged-LABEL</c>
/// ("B12/tagged-3/IMG_1.jpg", "B12_new-growth_2.jpg"). Letter case does not count, and a hyphen, a space or an underscore are alike. The
/// label is one run of letters and digits. The word nearest to the photo counts; folders of these names are never a plant.
/// </summary>
public static class LeafFromPath
{
    /// <summary>Reads the words of one photo.</summary>
    /// <param name="walkFolder">Folder of the walk.</param>
    /// <param name="photoPath">Path of the photo, inside <paramref name="walkFolder"/>.</param>
    public static LeafWords Decide(string walkFolder, string photoPath)
    {
        string inside = Path.GetRelativePath(walkFolder, photoPath);
        string[] parts = inside.Split([Path.DirectorySeparatorChar, Path.AltDirectorySeparatorChar], StringSplitOptions.RemoveEmptyEntries);
        if (parts.Length == 0 || parts[0] == ".." || Path.IsPathRooted(inside))
        {
            parts = [Path.GetFileName(photoPath)];
        }

        LeafWords found = new(null, null);
        parts[^1] = Path.GetFileNameWithoutExtension(parts[^1]);
        foreach (string part in parts)
        {
            LeafWords here = WordsIn(part);
            found = new LeafWords(here.Age ?? found.Age, here.Tag ?? found.Tag);
        }

        return found;
    }

    /// <summary>Whether a folder's whole name is one of the words.</summary>
    internal static bool IsLeafFolder(string folder) => Words(folder) is ["new" or "old", "growth"] or ["tagged", _];

    private static LeafWords WordsIn(string text)
    {
        List<string> words = Words(text);
        LeafGrowth? age = null;
        string? tag = null;
        for (int i = 0; i + 1 < words.Count; i++)
        {
            switch (words[i], words[i + 1])
            {
                case ("new", "growth"):
                    age = LeafGrowth.New;
                    break;
                case ("old", "growth"):
                    age = LeafGrowth.Old;
                    break;
                case ("tagged", string label):
                    tag = label;
                    break;
                default:
                    break;
            }
        }

        return new LeafWords(age, tag);
    }

    // Labels in small letters: "tagged-A" and "tagged-a" are one leaf.
    private static List<string> Words(string text)
    {
        List<string> words = [];
        var word = new StringBuilder();
        foreach (char letter in ComposedLetters.Join(text) + " ")
        {
            if (char.IsLetterOrDigit(letter))
            {
                word.Append(char.ToLowerInvariant(letter));
            }
            else if (word.Length > 0)
            {
                words.Add(word.ToString());
                word.Clear();
            }
        }

        return words;
    }
}
