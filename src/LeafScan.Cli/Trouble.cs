using System.CommandLine;
using System.Globalization;
using System.Text;
using LeafScan.Cli.Screen;
using LeafScan.Records;

namespace LeafScan.Cli;

/// <summary>The last net: turns whatever a command throws into a sentence and an exit code.</summary>
internal static class Trouble
{
    /// <summary>Runs a command and says in words what went wrong.</summary>
    public static async Task<int> GuardAsync(ParseResult parsed, Surroundings world, Func<Task<int>> command)
    {
        try
        {
            return await command().ConfigureAwait(false);
        }
        catch (CommandException error)
        {
            return Tell(world, error.Message, error.ExitCode);
        }
        catch (RecordException error)
        {
            bool wrongUse = error.Trouble is RecordTrouble.NoFolder or RecordTrouble.NoRecord or RecordTrouble.WrongValue;
            return Tell(world, error.Message, wrongUse ? ExitCode.WrongUse : ExitCode.StoreTrouble);
        }
        catch (OperationCanceledException)
        {
            return Tell(world, "Stopped. What was finished before is safe; run the same command again to go on.", ExitCode.Stopped);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return Tell(world, $"The disk did not do what was asked: {error.Message} What was stored before is safe.", ExitCode.StoreTrouble);
        }
        catch (Exception error) when (error is TypeInitializationException or DllNotFoundException)
        {
            Log(parsed, world, error);
            return Tell(world, "A picture library of this machine cannot be started. Nothing was changed. Run: leafscan doctor", ExitCode.StoreTrouble);
        }
        // Everything else is our own fault. The person gets one sentence, the log gets the rest.
#pragma warning disable CA1031
        catch (Exception error)
#pragma warning restore CA1031
        {
            string details = Log(parsed, world, error) is { } log
                ? $"Please report it with the details in {log}."
                : $"Please report it: {error.GetType().Name}, {error.Message}";
            return Tell(world, "LeafScan made a mistake of its own and stopped; what was stored before is safe. " + details, ExitCode.OwnFault);
        }
    }

    /// <summary>Adds an error with its place in the code to the log file in the data folder.</summary>
    /// <returns>The log's path; null when it could not be written.</returns>
    public static string? Log(ParseResult parsed, Surroundings world, Exception error)
    {
        try
        {
            string folder = Path.Combine(DataPlace.Of(parsed, world).FolderPath, "logs");
            Directory.CreateDirectory(folder);
            string path = Path.Combine(folder, "leafscan.log");
            string time = world.Time.GetUtcNow().ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
            lock (Gate)
            {
                File.AppendAllText(path, $"{time} {error}\n", new UTF8Encoding(false));
            }

            return path;
        }
        catch (Exception second) when (second is IOException or UnauthorizedAccessException or RecordException)
        {
            return null;
        }
    }

    private static readonly Lock Gate = new();

    private static int Tell(Surroundings world, string sentence, int code)
    {
        world.Err.WriteLine(Words.OneLine(sentence));
        return code;
    }
}
