namespace LeafScan.Leaves.Tests.Support;

/// <summary>
/// Real photos kept beside the repository, not in it. Tests that need them are skipped, and say so, where they are missing.
/// </summary>
internal static class SharedPhotos
{
    public static string? Folder { get; } = Find();

    private static string? Find()
    {
        string beside = Path.Combine(Repository.Root, "..", "shared");
        return Directory.Exists(Path.Combine(beside, "photos")) ? Path.GetFullPath(beside) : null;
    }
}

/// <summary>A test on real photos kept beside the repository.</summary>
public sealed class SharedPhotosFactAttribute : FactAttribute
{
    public SharedPhotosFactAttribute()
    {
        if (SharedPhotos.Folder is null)
        {
            Skip = "the shared photos do not lie beside the repository";
        }
    }
}

/// <summary>A test with several cases on real photos kept beside the repository.</summary>
public sealed class SharedPhotosTheoryAttribute : TheoryAttribute
{
    public SharedPhotosTheoryAttribute()
    {
        if (SharedPhotos.Folder is null)
        {
            Skip = "the shared photos do not lie beside the repository";
        }
    }
}
