using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;

namespace LeafScan.Records.Tests;

/// <summary>Starts <see cref="ChildProgram"/>.</summary>
internal static class Child
{
    public static readonly string Assembly = typeof(Child).Assembly.Location;

    public static string DotNet => Path.GetFullPath(Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "..", "..", "..", "dotnet"));

    public static Process Start(string folder, int first, int count) => StartProcess(
        DotNet, "exec", Assembly, folder, first.ToString(CultureInfo.InvariantCulture), count.ToString(CultureInfo.InvariantCulture));

    public static Process StartProcess(string program, params string[] arguments)
    {
        var start = new ProcessStartInfo(program) { RedirectStandardOutput = true, RedirectStandardError = true, UseShellExecute = false };
        foreach (string argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }

        return Process.Start(start)!;
    }

    /// <summary>Runs a program to its end; null when it cannot be started.</summary>
    public static (int ExitCode, string Output)? Run(string program, params string[] arguments)
    {
        try
        {
            using Process process = StartProcess(program, arguments);
            Task<string> errors = process.StandardError.ReadToEndAsync();
            string output = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            return (process.ExitCode, output + errors.Result);
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return null;
        }
    }
}
