namespace LeafScan.Cli.Screen;

/// <summary>Writes a file whole or not at all, so that a full disk or a stop never leaves half a result.</summary>
internal static class SafeFile
{
    /// <summary>Writes beside the target under another name, then moves it into place.</summary>
    /// <param name="path">Target; its folder is created when missing, an older file is replaced.</param>
    /// <param name="write">Writes the content.</param>
    /// <exception cref="CommandException">Disk trouble, with the path and the reason.</exception>
    public static void Write(string path, Action<Stream> write)
    {
        string full = Path.GetFullPath(path);
        if (IsDevice(full))
        {
            WriteStraight(full, path, write);
            return;
        }

        string part = full + "." + Guid.NewGuid().ToString("n")[..8] + ".part";
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(full) ?? "/");
            using (FileStream stream = new(part, FileMode.CreateNew, FileAccess.Write))
            {
                write(stream);
                stream.Flush(flushToDisk: false);
            }

            File.Move(part, full, overwrite: true);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new CommandException(
                ExitCode.StoreTrouble,
                $"Could not write {path}: {error.Message} Nothing half-written was left. Make room or choose another place, then run again.",
                error);
        }
        finally
        {
            TryDelete(part);
        }
    }

    // A pipe or device must be written to, never replaced: the shell's >(command) is a path below /dev.
    private static bool IsDevice(string full) =>
        full.StartsWith("/dev/", StringComparison.Ordinal) || full.StartsWith("/proc/", StringComparison.Ordinal);

    private static void WriteStraight(string full, string path, Action<Stream> write)
    {
        try
        {
            using FileStream stream = new(full, FileMode.Open, FileAccess.Write);
            write(stream);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new CommandException(ExitCode.StoreTrouble, $"Could not write {path}: {error.Message} Choose another place, then run again.", error);
        }
    }

    private static void TryDelete(string path)
    {
        try
        {
            File.Delete(path);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            // The first error is already on its way to the person.
        }
    }
}
