namespace LeafScan.Page.Tests.Support;

/// <summary>The rendered leaves that travel with the program; their EXIF tells the days 2026-07-02 and 2026-08-03.</summary>
internal static class SamplePhotos
{
    private static readonly string Root = Path.Combine(AppContext.BaseDirectory, "sample-images");

    /// <summary>Folder of one walk, with a folder for each plant.</summary>
    public static string Walk(string day) => Path.Combine(Root, $"walk-{day}");

    /// <summary>Photos of one plant on one day.</summary>
    public static string[] Of(string day, string plant, int count)
        => [.. Directory.EnumerateFiles(Path.Combine(Walk(day), plant), "*.jpg").Order(StringComparer.Ordinal).Take(count)];
}
