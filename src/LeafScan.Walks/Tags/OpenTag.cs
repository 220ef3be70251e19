using System.Globalization;
using LeafScan.Records;

namespace LeafScan.Walks.Tags;

/// <summary>The tag that counts for the photos after it, while the photos of a walk are gone through in the order in which they were taken.</summary>
/// <param name="File">The photo that shows it.</param>
/// <param name="Code">Plant it names; null for a tag that leaves the plant open.</param>
internal sealed record OpenTag(WalkFile File, string? Code)
{
    /// <summary>"IMG_2.jpg at 09:14:05".</summary>
    public string Place => $"{File.Item.Label} at {Clock(File)}";

    /// <summary>The plant of a photo that was taken after it and has nothing else to go by.</summary>
    public PlantGuess Of(WalkFile file)
    {
        if (Code is not null)
        {
            return new PlantGuess(Code, PlantSource.ByTag, $"It was taken at {Clock(file)}, after the tag of “{Code}” ({Place}).");
        }

        string tag = File.Tag.Codes.Count > 1 ? "tags of several plants" : "a tag that could not be read";
        return new PlantGuess(null, PlantSource.Unknown, $"It was taken at {Clock(file)}, after {tag} ({Place}).");
    }

    /// <summary>The time of day by the camera's clock.</summary>
    public static string Clock(WalkFile file) => file.Taken!.Value.Local.ToString("HH:mm:ss", CultureInfo.InvariantCulture);
}
