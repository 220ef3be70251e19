using System.Diagnostics;

namespace LeafScan.Cli.Tests.Support;

/// <summary>Programs from outside, which know nothing of how our files were made.</summary>
internal static class Outside
{
    /// <summary>What a program says; fails when it fails.</summary>
    public static string Run(string program, params string[] words)
    {
        using Process process = OwnDisk.Start(program, words);
        Task<string> errors = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, errors.Result);
        return output;
    }

    /// <summary>Whether a program is installed.</summary>
    public static bool Has(string program)
    {
        try
        {
            using Process? process = Process.Start(new ProcessStartInfo(program, "-v") { RedirectStandardOutput = true, RedirectStandardError = true, RedirectStandardInput = true });
            process?.StandardInput.Close();
            process?.WaitForExit();
            return process is not null;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return false;
        }
    }
}

/// <summary>A test that needs programs from outside and says so when it is skipped.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class NeedsFactAttribute : FactAttribute
{
    public NeedsFactAttribute(params string[] programs)
    {
        if (programs.FirstOrDefault(program => !Outside.Has(program)) is { } missing)
        {
            Skip = $"Skipped: the program {missing} is not installed.";
        }
    }
}
