using System.Globalization;
using System.Runtime.InteropServices;

namespace LeafScan.Cli.Bench;

/// <summary>The machine a bench ran on.</summary>
/// <param name="Processors">Processors this process may use.</param>
/// <param name="Processor">Model of the processor; "unknown" where the system does not say.</param>
/// <param name="MemoryMb">Memory this process may use, megabytes (10^6 bytes).</param>
/// <param name="System">Operating system.</param>
/// <param name="Runtime">Runtime of the program.</param>
internal sealed record Machine(int Processors, string Processor, long MemoryMb, string System, string Runtime)
{
    /// <summary>Looks at this machine.</summary>
    public static Machine Here() => new(
        Environment.ProcessorCount,
        Line("/proc/cpuinfo", "model name") ?? "unknown",
        GC.GetGCMemoryInfo().TotalAvailableMemoryBytes / 1_000_000,
        RuntimeInformation.OSDescription,
        RuntimeInformation.FrameworkDescription);

    /// <summary>Begins to note the most memory anew, where the system can (Linux: proc(5), clear_refs).</summary>
    public static bool ForgetPeakMemory()
    {
        try
        {
            File.WriteAllText("/proc/self/clear_refs", "5");
            return true;
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    /// <summary>Most memory this process held at once since then, megabytes (10^6 bytes); null where the system does not say.</summary>
    public static double? PeakMemoryMb() =>
        Line("/proc/self/status", "VmHWM") is { } text && double.TryParse(text.Split(' ')[0], CultureInfo.InvariantCulture, out double kibibytes)
            ? Math.Round(kibibytes * 1024 / 1e6)
            : null;

    private static string? Line(string file, string name)
    {
        try
        {
            return File.ReadLines(file).FirstOrDefault(line => line.StartsWith(name, StringComparison.Ordinal))?.Split(':', 2)[1].Trim();
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }
}
