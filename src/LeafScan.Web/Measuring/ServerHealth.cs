using LeafScan.Records;

namespace LeafScan.Web.Measuring;

/// <summary>What keeps the server from measuring, in words for the page.</summary>
internal sealed class ServerHealth
{
    private string? _trouble;

    /// <summary>Sentences; empty when all is well.</summary>
    public IReadOnlyList<string> Problems => Volatile.Read(ref _trouble) is { } trouble ? [trouble] : [];

    /// <summary>All is well again.</summary>
    public void Clear() => Volatile.Write(ref _trouble, null);

    /// <summary>Something keeps photos from being measured; they wait.</summary>
    public void Tell(Exception trouble) => Volatile.Write(ref _trouble, trouble switch
    {
        RecordException record => record.Message,
        TypeInitializationException or DllNotFoundException => "A picture library of this machine cannot be started, so photos wait. Run: leafscan doctor",
        IOException or UnauthorizedAccessException => "The disk did not take what was measured, so photos wait. Free some space; it is tried again by itself.",
        _ => "Measuring does not go on just now, so photos wait; it is tried again by itself. Details are in the log.",
    });
}
