using System.Text.Json;

namespace LeafScan.Cli.Demo;

/// <summary>The invented nursery of the demo, as sample-images/scenario.json tells it (schema leafscan.demo/1).</summary>
/// <param name="Place">The place.</param>
/// <param name="Walks">Its walks, earliest first.</param>
/// <param name="Plants">Its plants.</param>
/// <param name="Care">What was done between the walks.</param>
internal sealed record DemoStory(
    DemoStory.PlaceWords Place, IReadOnlyList<DemoStory.WalkFolder> Walks, IReadOnlyList<DemoStory.PlantWords> Plants, IReadOnlyList<DemoStory.CareWords> Care)
{
    private static readonly JsonSerializerOptions Layout = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase };

    /// <summary>The place.</summary>
    /// <param name="Name">Its name.</param>
    internal sealed record PlaceWords(string Name);

    /// <summary>A walk.</summary>
    /// <param name="Folder">Folder of its photos beside the story.</param>
    /// <param name="Date">Its day.</param>
    internal sealed record WalkFolder(string Folder, DateOnly Date);

    /// <summary>A plant.</summary>
    /// <param name="Code">Its code.</param>
    /// <param name="Name">What people call it.</param>
    /// <param name="Species">Botanical name.</param>
    /// <param name="Story">What happens to it.</param>
    internal sealed record PlantWords(string Code, string Name, string Species, string Story);

    /// <summary>A care entry.</summary>
    /// <param name="Plant">Code of the plant.</param>
    /// <param name="Date">Day.</param>
    /// <param name="What">Kind of care.</param>
    /// <param name="Note">More in words.</param>
    internal sealed record CareWords(string Plant, DateOnly Date, string What, string? Note);

    /// <summary>Reads the story.</summary>
    /// <param name="folder">Folder of the demo photos.</param>
    /// <exception cref="CommandException">It is not there or not whole.</exception>
    public static DemoStory Read(string folder)
    {
        string file = Path.Combine(folder, "scenario.json");
        try
        {
            return JsonSerializer.Deserialize<DemoStory>(File.ReadAllText(file), Layout) ?? throw new JsonException("The story is empty.");
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException or JsonException)
        {
            throw new CommandException(
                ExitCode.StoreTrouble, $"The demo's story {file} cannot be read. Nothing was made. Build or install LeafScan again.", error);
        }
    }
}
