using System.Diagnostics;

namespace LeafScan.Photos.Tests.Support;

/// <summary>Runs a program from outside the project.</summary>
internal static class OutsideTool
{
    public static bool Exists(string tool)
        => (Environment.GetEnvironmentVariable("PATH") ?? string.Empty).Split(':').Any(folder => folder.Length > 0 && File.Exists(Path.Combine(folder, tool)));

    public static string Run(string tool, params string[] arguments)
    {
        ProcessStartInfo start = new(tool, arguments) { RedirectStandardOutput = true, RedirectStandardError = true };
        using Process process = Process.Start(start)!;
        string output = process.StandardOutput.ReadToEnd();
        string errors = process.StandardError.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, $"{tool} failed: {errors}");
        return output;
    }
}
