namespace LeafScan.Leaves.Tests.Support;

/// <summary>
/// Real photos kept beside the repository, not in it. Tests that need them are skipped, and say so, where they are missing.
/// </summary>
internal static class SharedPhotos
{
    public static string? Folder { get; } = Find();

    private static string? Find()
    {
        for (DirectoryInfo? at = new(AppContext.BaseDirectory); at is not null; at = at.Parent)
        {
            if (File.Exists(Path.Combine(at.FullName, "LeafScan.sln")))
            {
                string beside = Path.Combine(at.FullName, "..", "shared");
                return Directory.Exists(Path.Combine(beside, "photos")) ? Path.GetFullPath(beside) : null;
            }
        }

        return null;
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
