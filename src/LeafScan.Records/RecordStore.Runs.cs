using Dapper;

namespace LeafScan.Records;

public sealed partial class RecordStore
{
    /// <summary>Notes that a command begins to write. A run that is never ended was cut off; what it committed stands.</summary>
    /// <param name="command">The command in words, without anything secret.</param>
    /// <param name="toolVersion">Version of the tool.</param>
    /// <returns>Number of the run.</returns>
    public long StartRun(string command, string toolVersion) => Write(transaction => transaction.Connection!.QuerySingle<long>(
        "INSERT INTO run (command, tool_version, started_utc) VALUES (@command, @toolVersion, @now) RETURNING id",
        new { command, toolVersion, now = Now() }, transaction));

    /// <summary>Notes how a run ended.</summary>
    public void EndRun(long runId, RunEnding ending, RunCounts counts) => Write(transaction => transaction.Connection!.Execute(
        """
        UPDATE run SET ended_utc = @now, ending = @ending, photos_added = @PhotosAdded, photos_already_here = @PhotosAlreadyHere,
            photos_refused = @PhotosRefused WHERE id = @runId
        """,
        new { runId, now = Now(), ending = EndingWord(ending), counts.PhotosAdded, counts.PhotosAlreadyHere, counts.PhotosRefused }, transaction));

    /// <summary>Runs, newest first.</summary>
    /// <param name="most">At most so many.</param>
    public IReadOnlyList<Run> Runs(int most = 50) => Read(connection => connection.Query<RunRow>(
        """
        SELECT id AS Id, command AS Command, tool_version AS ToolVersion, started_utc AS StartedUtc, ended_utc AS EndedUtc, ending AS Ending,
            photos_added AS PhotosAdded, photos_already_here AS PhotosAlreadyHere, photos_refused AS PhotosRefused
        FROM run ORDER BY id DESC LIMIT @most
        """,
        new { most }).Select(row => row.ToRun()).ToList());

    private static string EndingWord(RunEnding ending) => ending switch
    {
        RunEnding.Finished => "finished",
        RunEnding.Stopped => "stopped",
        _ => "failed",
    };

    private sealed class RunRow
    {
        public long Id { get; init; }

        public string Command { get; init; } = "";

        public string ToolVersion { get; init; } = "";

        public string StartedUtc { get; init; } = "";

        public string? EndedUtc { get; init; }

        public string? Ending { get; init; }

        public long? PhotosAdded { get; init; }

        public long? PhotosAlreadyHere { get; init; }

        public long? PhotosRefused { get; init; }

        public Run ToRun() => new(
            Id, Command, ToolVersion, UtcText.Time(StartedUtc), UtcText.TimeOrNull(EndedUtc),
            Ending is null ? null : Enum.Parse<RunEnding>(Ending, ignoreCase: true),
            Ending is null ? null : new RunCounts((int)(PhotosAdded ?? 0), (int)(PhotosAlreadyHere ?? 0), (int)(PhotosRefused ?? 0)));
    }
}
