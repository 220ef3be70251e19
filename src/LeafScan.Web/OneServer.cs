namespace LeafScan.Web;

/// <summary>Keeps a second server away from the same data folder. The system lets go of the mark when the process ends, however it ends.</summary>
public sealed class OneServer : IDisposable
{
    private readonly FileStream _mark;

    private OneServer(FileStream mark) => _mark = mark;

    /// <summary>Takes the folder; null when another server works in it.</summary>
    /// <param name="dataFolder">Data folder; must exist.</param>
    public static OneServer? Take(string dataFolder)
    {
        try
        {
            return new OneServer(new FileStream(Path.Combine(dataFolder, "serve.lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None));
        }
        catch (IOException)
        {
            return null;
        }
    }

    /// <inheritdoc />
    public void Dispose() => _mark.Dispose();
}
