namespace LeafScan.Training.Fuzz;

/// <summary>All ways in.</summary>
internal sealed class FuzzTargets : IDisposable
{
    private readonly List<IFuzzTarget> _all;

    /// <summary>Makes the sound files they start from.</summary>
    /// <param name="folder">An empty folder to work in.</param>
    public FuzzTargets(string folder)
    {
        RecordOriginal record = new(folder);
        Photos = new PhotoTarget(folder);
        _all =
        [
            Photos, new ArchiveTarget(record, folder), new BackupTarget(record, folder), new RecordFileTarget(record, folder), new WeatherTarget(record, folder),
            new ThresholdsTarget(record, folder), new SettingsTarget(record, folder), new ReadingTarget(), new FolderTarget(folder),
        ];
    }

    /// <summary>Photo files.</summary>
    public PhotoTarget Photos { get; }

    /// <summary>All, photos first.</summary>
    public IReadOnlyList<IFuzzTarget> All => _all;

    public void Dispose() => _all.ForEach(target => target.Dispose());
}
