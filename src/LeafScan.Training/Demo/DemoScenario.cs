using System.Text.Json.Serialization;

namespace LeafScan.Training.Demo;

/// <summary>The story of the demo pictures, as scenario.json tells it to the command that makes the demo record.</summary>
/// <param name="Schema">Name and number of the format.</param>
/// <param name="Place">The invented place.</param>
/// <param name="Walks">The walks, earliest first.</param>
/// <param name="Plants">The plants.</param>
/// <param name="Care">What was done between the walks.</param>
public sealed record DemoScenario(
    string Schema, DemoPlace Place, IReadOnlyList<DemoWalk> Walks, IReadOnlyList<DemoPlant> Plants, IReadOnlyList<DemoCare> Care);

/// <summary>The invented place.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Where">Where it is said to lie.</param>
public sealed record DemoPlace(string Name, string Where);

/// <summary>One walk.</summary>
/// <param name="Folder">Its folder under sample-images, with one sub-folder per plant code.</param>
/// <param name="Date">Local day.</param>
public sealed record DemoWalk(string Folder, DateOnly Date);

/// <summary>One plant.</summary>
/// <param name="Code">Its code.</param>
/// <param name="Name">What people call it.</param>
/// <param name="Species">Botanical name.</param>
/// <param name="Story">What happens to it, in one sentence.</param>
public sealed record DemoPlant(string Code, string Name, string Species, string Story);

/// <summary>One care entry.</summary>
/// <param name="Plant">Code of the plant.</param>
/// <param name="Date">Local day.</param>
/// <param name="What">rinse, soap, oil, predators, miticide, pruning or nothing.</param>
/// <param name="Note">More in words.</param>
public sealed record DemoCare(string Plant, DateOnly Date, string What, string Note);

/// <summary>One rendered photo of the demo.</summary>
/// <param name="WalkFolder">Folder of the walk.</param>
/// <param name="PlantCode">Folder of the plant.</param>
/// <param name="Scene">What to render.</param>
public sealed record DemoPhoto(string WalkFolder, string PlantCode, [property: JsonIgnore] Rendering.SceneSpec Scene);
