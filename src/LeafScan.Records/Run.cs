namespace LeafScan.Records;

/// <summary>How a run ended.</summary>
public enum RunEnding
{
    /// <summary>Everything was tried.</summary>
    Finished,

    /// <summary>A person stopped it.</summary>
    Stopped,

    /// <summary>Trouble with disk or record ended it.</summary>
    Failed,
}

/// <summary>What a run did.</summary>
/// <param name="PhotosAdded">Photos that are new on record.</param>
/// <param name="PhotosAlreadyHere">Photos whose bytes were on record.</param>
/// <param name="PhotosRefused">Files that were refused.</param>
public sealed record RunCounts(int PhotosAdded, int PhotosAlreadyHere, int PhotosRefused);

/// <summary>One command that wrote into the record.</summary>
/// <param name="Id">Number in the store.</param>
/// <param name="Command">The command in words.</param>
/// <param name="ToolVersion">Version of the tool.</param>
/// <param name="StartedAt">When it began.</param>
/// <param name="EndedAt">When it ended; null when it was cut off or still runs.</param>
/// <param name="Ending">How it ended; null when it was cut off or still runs.</param>
/// <param name="Counts">What it did; null when it was cut off or still runs.</param>
public sealed record Run(
    long Id, string Command, string ToolVersion, DateTimeOffset StartedAt, DateTimeOffset? EndedAt, RunEnding? Ending, RunCounts? Counts);
