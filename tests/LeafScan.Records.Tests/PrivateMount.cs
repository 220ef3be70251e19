using System.Globalization;

namespace LeafScan.Records.Tests;

/// <summary>
/// Runs <see cref="ChildProgram"/> with a disk of its own, in a mount namespace that goes with the process: a real
/// read-only disk and a real full one, without a trace on the machine.
/// </summary>
internal static class PrivateMount
{
    public static bool IsPossible { get; } = OperatingSystem.IsLinux()
        && Child.Run("unshare", "-rm", "sh", "-c", "mount -t tmpfs -o size=1m tmpfs /mnt") is (0, _);

    public static (int ExitCode, string Output) Run(string mount, string folder, int first, int count, string after = "")
    {
        string numbers = string.Create(CultureInfo.InvariantCulture, $"{first} {count}");
        return Child.Run("unshare", "-rm", "sh", "-c", $"{mount} && {Child.DotNet} exec {Child.Assembly} {folder} {numbers}{after}")
            ?? throw new InvalidOperationException("unshare went away.");
    }
}

/// <summary>A test that needs a mount namespace; skipped where the system gives none.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class PrivateMountFactAttribute : FactAttribute
{
    public PrivateMountFactAttribute()
    {
        if (!PrivateMount.IsPossible)
        {
            Skip = "Skipped: this system lets no process mount a disk of its own (unshare -rm).";
        }
    }
}
