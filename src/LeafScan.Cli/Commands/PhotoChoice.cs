using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>Finds the photo on record a person means: by its file name, by the start of its fingerprint, or by its number.</summary>
internal static class PhotoChoice
{
    private const int ShortestFingerprint = 8;

    /// <summary>Argument PHOTO.</summary>
    public static Argument<string> NewArgument() => new("PHOTO") { Description = "File name of the photo on record, or its number as \"leafscan photos\" shows it." };

    /// <summary>Option --plant, for file names that several plants have.</summary>
    public static Option<string?> NewPlantOption() => new("--plant") { Description = "Only photos of this plant; needed where several photos have the same file name.", HelpName = "CODE" };

    /// <summary>The one photo.</summary>
    /// <exception cref="CommandException">There is none, or several are meant.</exception>
    public static PhotoOnRecord One(RecordStore store, string word, string? plant, string? place)
    {
        string name = Path.GetFileName(word);
        List<PhotoOnRecord> found =
        [
            .. store.Photos().Where(photo => IsMeant(photo, word, name)
                && (plant is null || string.Equals(photo.PlantCode, plant, StringComparison.OrdinalIgnoreCase))
                && (place is null || string.Equals(photo.PlaceName, place, StringComparison.OrdinalIgnoreCase))),
        ];
        return found.Count switch
        {
            1 => found[0],
            0 => throw new CommandException(ExitCode.WrongUse, $"No photo {word} is on record there. All photos: leafscan photos"),
            _ => throw new CommandException(
                ExitCode.WrongUse,
                $"{Words.Count(found.Count, "photo")} on record are called {name}: {string.Join(", ", found.Take(6).Select(photo => $"{photo.Id} ({photo.PlantCode ?? "no plant"}, {Words.Day(photo.WalkedOn)})"))}. Say which by its number."),
        };
    }

    private static bool IsMeant(PhotoOnRecord photo, string word, string name)
        => string.Equals(photo.FileName, name, StringComparison.Ordinal)
            || (long.TryParse(word, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out long number) && photo.Id == number)
            || (word.Length >= ShortestFingerprint && photo.Sha256.StartsWith(word, StringComparison.OrdinalIgnoreCase));
}
