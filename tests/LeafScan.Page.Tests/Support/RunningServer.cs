using System.Diagnostics;

namespace LeafScan.Page.Tests.Support;

/// <summary>The real program, `leafscan serve`, with a data folder of its own.</summary>
internal sealed class RunningServer : IAsyncDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("leafscan-page-");
    private readonly List<string> _errors = [];
    private bool _isLan;
    private Process? _process;

    /// <summary>Address without a slash at its end.</summary>
    public string Address { get; private set; } = "";

    /// <summary>Most memory that the program has taken so far, in bytes.</summary>
    public long PeakBytes => Memory("VmHWM");

    /// <summary>Memory that it takes now, in bytes.</summary>
    public long UsedBytes => Memory("VmRSS");

    private string Data => Path.Combine(_folder.FullName, "record");

    /// <summary>Starts the program on a record of its own.</summary>
    /// <param name="lan">Whether other machines may come.</param>
    /// <param name="fill">Fills the data folder of this path before; null for an empty one.</param>
    public static async Task<RunningServer> StartAsync(bool lan = false, Func<string, Task>? fill = null)
    {
        RunningServer server = new() { _isLan = lan };
        await (fill?.Invoke(server.Data) ?? Task.CompletedTask);
        await server.StartAgainAsync(0);
        return server;
    }

    /// <summary>Starts the program on the same record, on the same port after a kill.</summary>
    public Task StartAgainAsync() => StartAgainAsync(new Uri(Address).Port);

    /// <summary>Ends the program as a power cut does.</summary>
    public async Task KillAsync()
    {
        _process!.Kill(entireProcessTree: true);
        await _process.WaitForExitAsync();
    }

    /// <summary>Runs another command on the same record, beside the server.</summary>
    public async Task RunBesideAsync(params string[] words)
    {
        using Process process = Process.Start(new ProcessStartInfo("dotnet", ["exec", Path.Combine(AppContext.BaseDirectory, "leafscan.dll"), .. words, "--data-dir", Data]) { RedirectStandardError = true })
            ?? throw new InvalidOperationException("dotnet did not start.");
        string errors = await process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        Assert.True(process.ExitCode == 0, errors);
    }

    private async Task StartAgainAsync(int port)
    {
        ProcessStartInfo start = new("dotnet", ["exec", Path.Combine(AppContext.BaseDirectory, "leafscan.dll"), "serve", "--port", $"{port}", "--data-dir", Data, .. _isLan ? (string[])["--lan"] : []])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        _process = Process.Start(start) ?? throw new InvalidOperationException("dotnet did not start.");
        _process.ErrorDataReceived += (_, line) =>
        {
            lock (_errors)
            {
                _errors.Add(line.Data ?? "");
            }
        };
        _process.BeginErrorReadLine();
        string? first = await _process.StandardOutput.ReadLineAsync().WaitAsync(TimeSpan.FromSeconds(60));
        Assert.True(first?.StartsWith("http://127.0.0.1:", StringComparison.Ordinal) == true, $"{first} {string.Join('\n', _errors)}");
        Address = first!.TrimEnd('/');
    }

    // As the kernel counts it (proc(5)): the number .NET gives for another process leaves the peak out.
    private long Memory(string field) => File.ReadLines($"/proc/{_process!.Id}/status").First(line => line.StartsWith(field, StringComparison.Ordinal)).Split(' ', StringSplitOptions.RemoveEmptyEntries) is [_, string kilobytes, ..]
        ? long.Parse(kilobytes, System.Globalization.CultureInfo.InvariantCulture) * 1024 : 0;

    public async ValueTask DisposeAsync()
    {
        if (_process is { HasExited: false })
        {
            await KillAsync();
        }

        _process?.Dispose();
        _folder.Delete(recursive: true);
    }
}
