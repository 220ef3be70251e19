namespace LeafScan.Records;

/// <summary>How the record is opened and kept.</summary>
public sealed record RecordOptions
{
    /// <summary>How long a command waits for another one that is writing. Default 30 seconds; at least one second, counted in whole seconds.</summary>
    public TimeSpan LockWait { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>How many automatic backups are kept, newest first. Default 5; at least 1. Backups asked for by a person are never removed.</summary>
    public int AutomaticBackupsKept { get; init; } = 5;

    /// <summary>What happens when the data folder holds no record. Default: one is begun.</summary>
    public bool CreateIfMissing { get; init; } = true;
}
