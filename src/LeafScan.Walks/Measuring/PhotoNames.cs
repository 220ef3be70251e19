namespace LeafScan.Walks.Measuring;

/// <summary>
/// Gives every file of a run a name for its mask and overlay that no other file of the run has. A name that is there once
/// stays as it is; files that share one keep as many of their folders as it takes to tell them apart; files that differ
/// in nothing but their ending keep the ending.
/// </summary>
/// <remarks>See docs/decisions/0002-names-of-masks.md.</remarks>
public static class PhotoNames
{
    /// <summary>Names the files, in the order given.</summary>
    /// <param name="paths">Full paths, each once.</param>
    public static IReadOnlyList<PhotoItem> Give(IReadOnlyList<string> paths)
    {
        PhotoItem[] items = new PhotoItem[paths.Count];

        // Case is ignored: masks are also copied to systems that cannot tell IMG_1 from img_1.
        foreach (IGrouping<string, int> same in Enumerable.Range(0, paths.Count)
            .GroupBy(i => Path.GetFileNameWithoutExtension(paths[i]), StringComparer.OrdinalIgnoreCase))
        {
            int[] members = [.. same];
            string common = CommonFolder([.. members.Select(i => paths[i])]);
            HashSet<string> folders = new(StringComparer.OrdinalIgnoreCase);
            bool foldersDiffer = members.All(i => folders.Add(Path.GetDirectoryName(paths[i]) ?? string.Empty));
            foreach (int i in members)
            {
                string file = Path.GetFileName(paths[i]);
                string stem = Path.GetFileNameWithoutExtension(paths[i]);
                string relative = members.Length == 1 ? file : Path.GetRelativePath(common, paths[i]);
                string folder = Path.GetDirectoryName(relative) ?? string.Empty;
                items[i] = new PhotoItem(paths[i], relative, Path.Combine(folder, members.Length == 1 || foldersDiffer ? stem : file));
            }
        }

        return items;
    }

    private static string CommonFolder(string[] paths)
    {
        string common = Path.GetDirectoryName(paths[0]) ?? "/";
        while (!paths.All(path => Below(path, common)))
        {
            common = Path.GetDirectoryName(common) ?? "/";
        }

        return common;
    }

    private static bool Below(string path, string folder) =>
        path.StartsWith(folder.EndsWith('/') ? folder : folder + "/", StringComparison.Ordinal);
}
