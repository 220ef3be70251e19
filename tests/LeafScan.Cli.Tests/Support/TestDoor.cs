using System.Text.Json;

namespace LeafScan.Cli.Tests.Support;

/// <summary>Runs commands in this process, in a folder of its own that goes when the test ends.</summary>
internal sealed class TestDoor : IDisposable
{
    public TestDoor() => Folder = Directory.CreateTempSubdirectory("leafscan-test-").FullName;

    public string Folder { get; }

    /// <summary>The data folder that commands find by themselves.</summary>
    public string DataFolder => At("data/leafscan");

    public string At(string name) => Path.Combine(Folder, name);

    public string MakeFolder(string name) => Directory.CreateDirectory(At(name)).FullName;

    public async Task<Ran> RunAsync(string[] args, TimeProvider? clock, CancellationToken cancel)
    {
        using StringWriter output = new();
        using StringWriter errors = new();
        int code = await Door.RunAsync(args, World(output, errors, clock), cancel);
        return new Ran(code, output.ToString(), errors.ToString());
    }

    /// <summary>
    /// Runs a command and stops it as soon as something has happened. The watching has a thread of its own: on two processors
    /// the pool's are all measuring, and a watcher among them would wake when the run is over.
    /// </summary>
    public async Task<Ran> RunUntilAsync(Func<bool> happened, params string[] args)
    {
        using CancellationTokenSource stop = new();
        Task<Ran> running = Task.Run(() => RunAsync(args, null, stop.Token));
        Thread watcher = new(() =>
        {
            while (!running.IsCompleted && !happened())
            {
                Thread.Sleep(5);
            }

            stop.Cancel();
        });
        watcher.Start();
        Ran ran = await running;
        watcher.Join();
        return ran;
    }

    public Task<Ran> RunAsync(params string[] args) => RunAsync(args, null, CancellationToken.None);

    public Surroundings World(TextWriter output, TextWriter errors, TimeProvider? clock = null) => new()
    {
        Out = output,
        Err = TextWriter.Synchronized(errors),
        Time = clock ?? TimeProvider.System,
        Variable = name => name == "XDG_DATA_HOME" ? At("data") : null,
        HomeFolder = At("home"),
    };

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}

/// <summary>What a command did.</summary>
internal sealed record Ran(int Code, string Out, string Err)
{
    /// <summary>Standard output as one JSON document; fails when there is anything else on it.</summary>
    public JsonElement Json => JsonDocument.Parse(Out).RootElement;

    public override string ToString() => $"code {Code}\n--- out\n{Out}\n--- err\n{Err}";
}
