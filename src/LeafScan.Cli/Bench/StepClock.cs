using System.Collections.Concurrent;
using System.Diagnostics;
using LeafScan.Photos;

namespace LeafScan.Cli.Bench;

/// <summary>Listens to <see cref="Steps"/> and adds up how long each took.</summary>
internal sealed class StepClock : IDisposable
{
    private readonly ConcurrentDictionary<string, double> _seconds = new(StringComparer.Ordinal);
    private readonly ActivityListener _listener;

    /// <summary>Starts listening.</summary>
    public StepClock()
    {
        _listener = new ActivityListener
        {
            ShouldListenTo = source => source.Name == Steps.SourceName,
            Sample = (ref ActivityCreationOptions<ActivityContext> _) => ActivitySamplingResult.PropagationData,
            ActivityStopped = step => _seconds.AddOrUpdate(step.OperationName, step.Duration.TotalSeconds, (_, before) => before + step.Duration.TotalSeconds),
        };
        ActivitySource.AddActivityListener(_listener);
    }

    /// <summary>Seconds by step since the last call.</summary>
    public IReadOnlyDictionary<string, double> Take()
    {
        Dictionary<string, double> taken = new(_seconds, StringComparer.Ordinal);
        _seconds.Clear();
        return taken;
    }

    /// <inheritdoc />
    public void Dispose() => _listener.Dispose();
}
