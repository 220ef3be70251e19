using System.Diagnostics;

namespace LeafScan.Cli.Tests.Support;

/// <summary>
/// Runs the program with a disk of its own, in a mount namespace that goes with the process: really read-only or really
/// full, without a trace on the machine.
/// </summary>
internal static class OwnDisk
{
    public static bool IsPossible { get; } = OperatingSystem.IsLinux() && Try();

    /// <summary>Mounts, then runs leafscan with the words after the first.</summary>
    public static async Task<Ran> RunAsync(params string[] mountAndWords)
    {
        string program = Path.Combine(AppContext.BaseDirectory, "leafscan.dll");
        string words = string.Join(' ', mountAndWords.Skip(1).Select(word => $"'{word}'"));
        using Process process = Start("unshare", "-rm", "sh", "-c", $"{mountAndWords[0]} && dotnet exec '{program}' {words}");
        Task<string> errors = process.StandardError.ReadToEndAsync();
        string output = await process.StandardOutput.ReadToEndAsync();
        await process.WaitForExitAsync();
        return new Ran(process.ExitCode, output, await errors);
    }

    public static Process Start(string program, params string[] words) =>
        Process.Start(new ProcessStartInfo(program, words) { RedirectStandardOutput = true, RedirectStandardError = true })
        ?? throw new InvalidOperationException($"{program} did not start.");

    private static bool Try()
    {
        try
        {
            using Process process = Start("unshare", "-rm", "sh", "-c", "mount -t tmpfs -o size=1m tmpfs /mnt");
            process.WaitForExit();
            return process.ExitCode == 0;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return false;
        }
    }
}

/// <summary>A test that needs a mount of its own; skipped where the system gives none.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class OwnDiskFactAttribute : FactAttribute
{
    public OwnDiskFactAttribute()
    {
        if (!OwnDisk.IsPossible)
        {
            Skip = "Skipped: this system lets no process mount a disk of its own (unshare -rm).";
        }
    }
}
