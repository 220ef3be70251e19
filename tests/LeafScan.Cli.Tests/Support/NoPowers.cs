using System.Diagnostics;

namespace LeafScan.Cli.Tests.Support;

/// <summary>
/// Runs the program as the owner of its files and without any privilege, in a user namespace of its own: even when the tests run
/// as root, a read-only folder is then read-only.
/// </summary>
internal static class NoPowers
{
    public static bool IsPossible { get; } = OperatingSystem.IsLinux() && Try();

    /// <summary>Runs leafscan with these words; meanwhile something may happen.</summary>
    public static async Task<Ran> RunAsync(string[] words, Action? meanwhile = null)
    {
        using Process process = OwnDisk.Start("unshare", ["-U", "dotnet", "exec", Path.Combine(AppContext.BaseDirectory, "leafscan.dll"), .. words]);
        Task<string> errors = process.StandardError.ReadToEndAsync();
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        meanwhile?.Invoke();
        await process.WaitForExitAsync();
        return new Ran(process.ExitCode, await output, await errors);
    }

    /// <summary>Takes the right to write from a folder and its files, or gives it back.</summary>
    public static void ReadOnly(string folder, bool isReadOnly)
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        UnixFileMode read = UnixFileMode.UserRead, write = isReadOnly ? UnixFileMode.None : UnixFileMode.UserWrite;
        File.SetUnixFileMode(folder, read | write | UnixFileMode.UserExecute);
        foreach (string file in Directory.EnumerateFiles(folder))
        {
            File.SetUnixFileMode(file, read | write);
        }
    }

    private static bool Try()
    {
        string folder = Directory.CreateTempSubdirectory("leafscan-powers-").FullName;
        try
        {
            ReadOnly(folder, true);
            using Process process = OwnDisk.Start("unshare", "-U", "sh", "-c", $"test -r '{AppContext.BaseDirectory}' && ! touch '{folder}/a'");
            process.WaitForExit();
            return process.ExitCode == 0;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return false;
        }
        finally
        {
            ReadOnly(folder, false);
            Directory.Delete(folder, recursive: true);
        }
    }
}

/// <summary>A test that needs a process without privileges; skipped where the system gives none.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class NoPowersFactAttribute : FactAttribute
{
    public NoPowersFactAttribute()
    {
        if (!NoPowers.IsPossible)
        {
            Skip = "Skipped: this system lets no process give up its privileges (unshare -U), so that no folder is read-only for it.";
        }
    }
}
