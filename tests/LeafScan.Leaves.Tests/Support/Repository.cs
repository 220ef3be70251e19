namespace LeafScan.Leaves.Tests.Support;

/// <summary>The repository that the tests run in: its demo photos and model files.</summary>
internal static class Repository
{
    /// <summary>Its top folder.</summary>
    public static string Root { get; } = Find();

    private static string Find()
    {
        for (DirectoryInfo? at = new(AppContext.BaseDirectory); at is not null; at = at.Parent)
        {
            if (File.Exists(Path.Combine(at.FullName, "LeafScan.sln")))
            {
                return at.FullName;
            }
        }

        throw new InvalidOperationException("The repository was not found above the tests.");
    }
}
