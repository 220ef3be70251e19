using System.Globalization;
using Spectre.Console;

namespace LeafScan.Cli.Screen;

/// <summary>
/// Tells on standard error how far a run is: a bar where somebody watches, else a plain line every few seconds. The only
/// place that knows the console library.
/// </summary>
internal sealed class ProgressTeller : IDisposable
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(5);

    private readonly Surroundings _world;
    private readonly string _what;
    private readonly int _total;
    private readonly long _start;
    private readonly TaskCompletionSource _end = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly Task? _bar;
    private readonly Lock _gate = new();
    private long _lastLine;
    private int _done;

    /// <summary>Starts telling.</summary>
    /// <param name="world">Where to tell it, and the clock.</param>
    /// <param name="what">What is done, as in "Measuring".</param>
    /// <param name="total">How many photos there are.</param>
    public ProgressTeller(Surroundings world, string what, int total)
    {
        (_world, _what, _total) = (world, what, total);
        _start = _lastLine = world.Time.GetTimestamp();
        if (world.ErrIsTerminal && total > 1)
        {
            _bar = ShowBar();
        }
    }

    /// <summary>One photo more is done. May be called from several threads.</summary>
    public void Step()
    {
        lock (_gate)
        {
            _done++;
            if (_bar is null && _done < _total && _world.Time.GetElapsedTime(_lastLine) >= Pause)
            {
                _lastLine = _world.Time.GetTimestamp();
                _world.Err.WriteLine(Line(_done));
            }
        }
    }

    /// <summary>Takes the bar off the screen.</summary>
    public void Dispose()
    {
        _end.TrySetResult();
        _bar?.Wait();
    }

    private string Line(int done)
    {
        double seconds = _world.Time.GetElapsedTime(_start).TotalSeconds;
        double left = seconds / done * (_total - done);
        return string.Create(CultureInfo.InvariantCulture,
            $"{_what}: {done} of {_total} photos, {done / seconds * 60:0} a minute, about {Math.Ceiling(left):0} s left");
    }

    private Task ShowBar()
    {
        IAnsiConsole console = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(_world.Err) });
        return console.Progress().AutoClear(true).HideCompleted(true)
            .Columns(new TaskDescriptionColumn(), new ProgressBarColumn(), new RemainingTimeColumn())
            .StartAsync(async context =>
            {
                ProgressTask task = context.AddTask(_what, maxValue: _total);
                while (await Task.WhenAny(_end.Task, Task.Delay(200)) != _end.Task)
                {
                    int done;
                    lock (_gate)
                    {
                        done = _done;
                    }

                    task.Value = done;
                    task.Description = string.Create(CultureInfo.InvariantCulture, $"{_what} {done} of {_total}");
                }
            });
    }
}
