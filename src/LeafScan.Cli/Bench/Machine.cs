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
