namespace LeafScan.Training.Fuzz;

/// <summary>A folder that is emptied before each file.</summary>
internal sealed class FuzzFolder(string path)
{
    /// <summary>The folder, empty.</summary>
    public string Fresh()
    {
        if (Directory.Exists(path))
        {
            Directory.Delete(path, recursive: true);
        }

        return Directory.CreateDirectory(path).FullName;
    }
}
