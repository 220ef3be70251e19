namespace LeafScan.Walks.Measuring;

/// <summary>One file to be measured.</summary>
/// <param name="Path">Full path.</param>
/// <param name="Label">
/// Name in results: the file's name, or with folders before it where two files of the run share a name.
/// </param>
/// <param name="OutputName">Name of its mask and overlay without ending, with folders before it where needed.</param>
public sealed record PhotoItem(string Path, string Label, string OutputName);
