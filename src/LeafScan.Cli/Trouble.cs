using System.Globalization;
using System.Text;
using LeafScan.Cli.Screen;

namespace LeafScan.Cli;

/// <summary>A failure that a person can do something about: one sentence each for what happened and what to do.</summary>
public sealed class CommandException : Exception
{
    /// <summary>Creates the failure.</summary>
    /// <param name="exitCode">A number from <see cref="Cli.ExitCode"/>.</param>
    /// <param name="message">What happened, what is safe, what to do next.</param>
    /// <param name="inner">What caused it, or null.</param>
    public CommandException(int exitCode, string message, Exception? inner = null)
        : base(message, inner) => ExitCode = exitCode;

    /// <summary>The exit code of the command.</summary>
    public int ExitCode { get; }
}

/// <summary>The last net: turns whatever a command throws into a sentence and an exit code.</summary>
internal static class Trouble
{
    /// <summary>Runs a command and says in words what went wrong.</summary>
    public static async Task<int> GuardAsync(Surroundings world, Func<Task<int>> command)
    {
        try
        {
            return await command().ConfigureAwait(false);
        }
        catch (CommandException error)
        {
            world.Err.WriteLine(Words.OneLine(error.Message));
            return error.ExitCode;
        }
        catch (OperationCanceledException)
        {
            world.Err.WriteLine("Stopped. Run the same command again to go on.");
            return ExitCode.Stopped;
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            world.Err.WriteLine(Words.OneLine($"The disk did not do what was asked: {error.Message} Free or unlock the place, then run the command again."));
            return ExitCode.StoreTrouble;
        }
        // Everything else is our own fault. The person gets one sentence, the log gets the rest.
#pragma warning disable CA1031
        catch (Exception error)
#pragma warning restore CA1031
        {
            string? log = Log(world, error);
            world.Err.WriteLine("LeafScan made a mistake of its own and stopped; what was stored before is safe."
                + (log is null ? " " + Words.OneLine(error.GetType().Name + ": " + error.Message) : $" Details are in {log}; please report them."));
            return ExitCode.OwnFault;
        }
    }

    /// <summary>Adds an error with its place in the code to the log file.</summary>
    /// <returns>The log's path; null when it could not be written.</returns>
    public static string? Log(Surroundings world, Exception error)
    {
        try
        {
            string folder = LogFolder(world);
            Directory.CreateDirectory(folder);
            string path = Path.Combine(folder, "leafscan.log");
            string time = world.Time.GetUtcNow().ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
            File.AppendAllText(path, $"{time} {error}{Environment.NewLine}", new UTF8Encoding(false));
            return path;
        }
        catch (Exception second) when (second is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            return null;
        }
    }

    /// <summary>Where the log lies: $XDG_STATE_HOME/leafscan, or ~/.local/state/leafscan (XDG base directories 0.8).</summary>
    public static string LogFolder(Surroundings world)
    {
        string? state = world.Variable("XDG_STATE_HOME");
        string root = !string.IsNullOrEmpty(state) && Path.IsPathRooted(state)
            ? state
            : Path.Combine(world.Variable("HOME") ?? Path.GetTempPath(), ".local", "state");
        return Path.Combine(root, "leafscan");
    }
}
