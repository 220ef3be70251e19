namespace LeafScan.Web.Progress;

/// <summary>
/// Wakes whoever waits for news. The news itself stands in the record, so that nobody who was away misses any: a listener reads from
/// where it stopped, then waits for the next ring.
/// </summary>
internal sealed class ProgressBell
{
    private TaskCompletionSource _next = New();

    /// <summary>Done at the next ring; take it before reading the news.</summary>
    public Task Next => Volatile.Read(ref _next).Task;

    /// <summary>Rings.</summary>
    public void Ring() => Interlocked.Exchange(ref _next, New()).TrySetResult();

    private static TaskCompletionSource New() => new(TaskCreationOptions.RunContinuationsAsynchronously);
}
