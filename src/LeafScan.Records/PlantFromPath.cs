namespace LeafScan.Records;

/// <summary>
/// Tells the plant from where a photo lies in the folder of a walk:
/// <list type="number">
/// <item>In a sub-folder: the name of the uppermost sub-folder is the plant code, whatever it is ("B12",
/// "Miller's hedge, south"). Folders that cameras and phones make themselves (DCIM, 100ABCDE, photos ...)
/// and those that tell of the leaf (<see cref="LeafFromPath"/>) are passed over.</item>
/// <item>Else a code at the start of the file name: letters and digits, at least one of each, in any script, at most
/// eight characters and at most four digits in a row, ended by the end of the name or by anything that is neither letter
/// nor digit. The shortest beginning that is a code counts: "B12-3.jpg" is the third photo of B12. Letters, a hyphen and
/// digits are one code: "BX-07 front.jpg" is BX-07.</item>
/// <item>Names that cameras give are no codes: a known camera word ("IMG", "DSC" ...) before the digits, the shape
/// of four free characters and four digits (JEITA CP-3461, the design rule for camera file systems), years, dates, UUIDs.</item>
/// </list>
/// </summary>
public static class PlantFromPath
{
    private const int LongestCode = 8;
    private const int MostDigitsInARow = 4;

    // Words that phones and cameras put before a counter; common practice, no source. Compared without letter case.
    private static readonly HashSet<string> CameraWords = new(StringComparer.OrdinalIgnoreCase)
    {
        "img", "imge", "mvimg", "cimg", "kimg", "image", "images", "dsc", "dscn", "dscf", "dcim", "dcp", "pxl", "pict", "pic",
        "photo", "photos", "p", "picture", "pano", "burst", "mov", "vid", "video", "screenshot", "scan", "wa", "whatsapp",
        "signal", "win", "sam", "gopr", "dji", "fb", "mg", "cam", "camera", "jpeg", "jpg", "heic", "png", "file", "copy",
    };

    private static readonly HashSet<string> CameraFolders = new(StringComparer.OrdinalIgnoreCase)
    {
        "dcim", "camera", "photos", "photo", "pictures", "images", "img", "camera roll",
    };

    /// <summary>Tells the plant of one photo.</summary>
    /// <param name="walkFolder">Folder of the walk.</param>
    /// <param name="photoPath">Path of the photo, inside <paramref name="walkFolder"/>.</param>
    public static PlantGuess Decide(string walkFolder, string photoPath)
    {
        string inside = Path.GetRelativePath(walkFolder, photoPath);
        string[] parts = inside.Split([Path.DirectorySeparatorChar, Path.AltDirectorySeparatorChar], StringSplitOptions.RemoveEmptyEntries);
        bool isInside = parts.Length > 0 && parts[0] != ".." && !Path.IsPathRooted(inside);
        foreach (string folder in isInside ? parts[..^1] : [])
        {
            if (IsCameraFolder(folder) || LeafFromPath.IsLeafFolder(folder))
            {
                continue;
            }

            return NameText.Clean(folder) is { } code
                ? new PlantGuess(code, PlantSource.ByFolder, $"It lies in the folder “{code}”.")
                : Unknown("The name of its folder is too long or holds control characters; rename the folder to the plant's code.");
        }

        string stem = Path.GetFileNameWithoutExtension(photoPath);
        return CodeAtStart(ComposedLetters.Join(stem)) is { } found
            ? new PlantGuess(found, PlantSource.ByFileName, $"Its file name begins with “{found}”.")
            : Unknown("It lies in no plant's folder and its name begins with no plant code; put it into a folder named after the plant.");
    }

    internal static string? CodeAtStart(string stem)
    {
        int end = WordEnd(stem, 0);
        if (end == 0 || LooksLikeUuid(stem))
        {
            return null;
        }

        string word = stem[..end];
        if (IsCode(word))
        {
            return word;
        }

        if (end < stem.Length && stem[end] == '-' && word.All(char.IsLetter) && !CameraWords.Contains(word) && !word.Equals("tagged", StringComparison.OrdinalIgnoreCase))
        {
            int secondEnd = WordEnd(stem, end + 1);
            string digits = stem[(end + 1)..secondEnd];
            string joined = stem[..secondEnd];
            if (digits.Length is > 0 and <= MostDigitsInARow && digits.All(char.IsDigit) && joined.Length <= LongestCode)
            {
                return joined;
            }
        }

        return null;
    }

    private static int WordEnd(string text, int start)
    {
        int end = start;
        while (end < text.Length && char.IsLetterOrDigit(text[end]))
        {
            end++;
        }

        return end;
    }

    private static bool IsCode(string word)
    {
        if (word.Length > LongestCode || !word.Any(char.IsLetter) || !word.Any(char.IsDigit))
        {
            return false;
        }

        string letters = new(word.TakeWhile(char.IsLetter).ToArray());
        int trailingDigits = word.Reverse().TakeWhile(char.IsDigit).Count();
        bool isCameraName = CameraWords.Contains(letters) && letters.Length + trailingDigits == word.Length && !IsSmallCounter(letters, trailingDigits);
        bool hasCameraShape = word.Length == 8 && trailingDigits >= 4;
        return !isCameraName && !hasCameraShape && LongestDigitRun(word) <= MostDigitsInARow && !StartsWithYear(word);
    }

    // "P7" is a fair plant code, "P1010001" is a camera's name; "IMG1" is never a plant.
    private static bool IsSmallCounter(string letters, int digits) => letters.Length == 1 && digits <= 3;

    private static int LongestDigitRun(string word)
    {
        int longest = 0, run = 0;
        foreach (char letter in word)
        {
            run = char.IsDigit(letter) ? run + 1 : 0;
            longest = Math.Max(longest, run);
        }

        return longest;
    }

    private static bool StartsWithYear(string word)
        => word.Length >= 4 && word[..4].All(char.IsAsciiDigit) && (word.StartsWith("19", StringComparison.Ordinal) || word.StartsWith("20", StringComparison.Ordinal));

    // Some programs name exported photos by a UUID (RFC 9562): eight hex digits, a hyphen, four, a hyphen ...
    private static bool LooksLikeUuid(string stem)
        => stem.Length >= 14 && stem[8] == '-' && stem[13] == '-' && stem[..8].All(char.IsAsciiHexDigit) && stem[9..13].All(char.IsAsciiHexDigit);

    private static bool IsCameraFolder(string name)
        => CameraFolders.Contains(name.Trim()) || (name.Length == 8 && name[..3].All(char.IsAsciiDigit) && name[3..].All(IsCameraFolderLetter) && name[0] != '0');

    // JEITA CP-3461: a folder is three digits from 100 to 999 and five characters of 0-9, A-Z and the underscore.
    private static bool IsCameraFolderLetter(char letter) => char.IsAsciiDigit(letter) || char.IsAsciiLetterUpper(letter) || letter == '_';

    private static PlantGuess Unknown(string because) => new(null, PlantSource.Unknown, because);
}
