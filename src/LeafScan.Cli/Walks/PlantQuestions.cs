using LeafScan.Cli.Screen;
using LeafScan.Walks;

namespace LeafScan.Cli.Walks;

/// <summary>One photo's plant, as far as a person may have to look at it.</summary>
/// <param name="File">The photo.</param>
/// <param name="Plant">Its plant; null when unknown.</param>
/// <param name="Because">Why.</param>
/// <param name="Unsure">Whether tag, folder and file name disagree.</param>
/// <param name="TagUnread">Whether it shows a tag that could not be read.</param>
internal sealed record PlantQuestion(string File, string? Plant, string Because, bool Unsure, bool TagUnread)
{
    /// <summary>Of a photo that was added.</summary>
    public static PlantQuestion Of(AddedPhoto photo) => new(photo.File, photo.Plant, photo.PlantGuess.Because, photo.PlantUnsure, photo.TagUnread);

    /// <summary>Of a file that would be added.</summary>
    public static PlantQuestion Of(WalkFile file) => new(file.Item.Label, file.Plant.Code, file.Plant.Because, file.PlantUnsure, file.Tag.Unread);
}

/// <summary>Asks about plants that could not be told or not surely, on standard error. Nothing waits for an answer.</summary>
internal static class PlantQuestions
{
    private const int NamesShown = 20;

    /// <summary>Writes the questions.</summary>
    public static void Write(Surroundings world, IReadOnlyList<PlantQuestion> photos)
    {
        List<PlantQuestion> unsure = [.. photos.Where(photo => photo is { Unsure: true, Plant: not null })];
        Tell(world, unsure, photo => $"Is it {photo.Plant}? {photo.File}: {photo.Because}");
        List<PlantQuestion> without = [.. photos.Where(photo => photo.Plant is null).OrderBy(photo => photo.File, StringComparer.Ordinal)];
        if (without.Count > 0)
        {
            string same = without.Select(photo => photo.Because).Distinct().Count() == 1 ? " " + without[0].Because : string.Empty;
            world.Err.WriteLine(Words.OneLine($"Without a plant: {Words.Count(without.Count, "photo")}.{same}"));
            Tell(world, same.Length > 0 ? [] : without, photo => $"Which plant? {photo.File}: {photo.Because}");
        }

        if (without.FirstOrDefault(photo => photo.TagUnread) is { } tag)
        {
            world.Err.WriteLine(Words.OneLine($"To answer for a tag and the photos after it: leafscan photos assign {Quoted(tag.File)} PLANT --following"));
        }
        else if (without.Count + unsure.Count > 0)
        {
            world.Err.WriteLine(Words.OneLine($"To answer: leafscan photos assign {Quoted((without.Count > 0 ? without : unsure)[0].File)} PLANT"));
        }
    }

    /// <summary>How a plant was found, in words for a table.</summary>
    public static string Source(string word) => word switch
    {
        "byFolder" => "folder",
        "byFileName" => "file name",
        "byTag" => "tag",
        "byHand" => "hand",
        _ => string.Empty,
    };

    private static string Quoted(string label) => label.Contains(' ', StringComparison.Ordinal) ? $"\"{Path.GetFileName(label)}\"" : Path.GetFileName(label);

    private static void Tell(Surroundings world, List<PlantQuestion> photos, Func<PlantQuestion, string> line)
    {
        foreach (PlantQuestion photo in photos.Take(NamesShown))
        {
            world.Err.WriteLine(Words.OneLine(line(photo)));
        }

        if (photos.Count > NamesShown)
        {
            world.Err.WriteLine($"... and {photos.Count - NamesShown} more. All of them: --json, or leafscan photos");
        }
    }
}
