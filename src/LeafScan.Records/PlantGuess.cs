namespace LeafScan.Records;

/// <summary>How a photo's plant was found.</summary>
public enum PlantSource
{
    /// <summary>No plant could be told.</summary>
    Unknown,

    /// <summary>From the sub-folder in which the photo lies.</summary>
    ByFolder,

    /// <summary>From the code at the start of the file name.</summary>
    ByFileName,

    /// <summary>From a printed tag in the photo or in a photo before it.</summary>
    ByTag,

    /// <summary>A person said so.</summary>
    ByHand,
}

/// <summary>Which plant a photo shows, and why we think so.</summary>
/// <param name="Code">Plant code, or null when <paramref name="Source"/> is <see cref="PlantSource.Unknown"/>.</param>
/// <param name="Source">How it was found.</param>
/// <param name="Because">The reason, one sentence; when unknown, what would help.</param>
public sealed record PlantGuess(string? Code, PlantSource Source, string Because)
{
    /// <summary>The word of <see cref="PlantSource.ByTag"/>.</summary>
    public const string TagWord = "byTag";

    /// <summary>The word of <see cref="PlantSource.Unknown"/>.</summary>
    public const string UnknownWord = "unknown";

    /// <summary>The decision in one word: byFolder, byFileName, byTag, byHand or unknown.</summary>
    public string Word => WordOf(Source);

    /// <summary>A plant named by a person.</summary>
    /// <param name="code">The code.</param>
    /// <exception cref="RecordException">The code cannot be kept.</exception>
    public static PlantGuess ByHand(string code)
    {
        string clean = NameText.CleanOrThrow(code, "a plant code");
        return new PlantGuess(clean, PlantSource.ByHand, "It was given by hand.");
    }

    internal static string WordOf(PlantSource source) => source switch
    {
        PlantSource.ByFolder => "byFolder",
        PlantSource.ByFileName => "byFileName",
        PlantSource.ByTag => TagWord,
        PlantSource.ByHand => "byHand",
        _ => UnknownWord,
    };
}
