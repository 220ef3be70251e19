namespace LeafScan.Records;

/// <summary>What kind of trouble the record has; a door can choose its exit code by it.</summary>
public enum RecordTrouble
{
    /// <summary>No data folder could be told.</summary>
    NoFolder,

    /// <summary>There is no record in the data folder yet.</summary>
    NoRecord,

    /// <summary>Folder or file cannot be written or opened.</summary>
    CannotWrite,

    /// <summary>No room is left.</summary>
    DiskFull,

    /// <summary>Another command held the record for longer than the wait.</summary>
    Busy,

    /// <summary>The file is damaged.</summary>
    Damaged,

    /// <summary>The file is something else than a record of LeafScan.</summary>
    NotARecord,

    /// <summary>A newer version of the tool wrote the file.</summary>
    FromNewerVersion,

    /// <summary>The disk reported a fault.</summary>
    DiskFault,

    /// <summary>A name, date or number cannot be kept as it was given.</summary>
    WrongValue,
}

/// <summary>
/// Trouble with the record, told in three sentences for the person at the keyboard: what happened, what is safe,
/// what to do next. <see cref="Exception.Message"/> is the three together.
/// </summary>
public sealed class RecordException : Exception
{
    /// <summary>A trouble in three sentences.</summary>
    /// <param name="trouble">Its kind.</param>
    /// <param name="happened">What happened.</param>
    /// <param name="safe">What is safe.</param>
    /// <param name="next">What to do next.</param>
    /// <param name="cause">The fault underneath, for a log.</param>
    public RecordException(RecordTrouble trouble, string happened, string safe, string next, Exception? cause = null)
        : base($"{happened} {safe} {next}", cause)
    {
        Trouble = trouble;
        Happened = happened;
        Safe = safe;
        Next = next;
    }

    /// <summary>Kind of trouble.</summary>
    public RecordTrouble Trouble { get; }

    /// <summary>What happened, one sentence.</summary>
    public string Happened { get; }

    /// <summary>What is safe, one sentence.</summary>
    public string Safe { get; }

    /// <summary>What to do next, one sentence.</summary>
    public string Next { get; }
}
