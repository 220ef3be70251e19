using System.Globalization;

namespace LeafScan.Walks.Measuring;

/// <summary>Memory of this process as the system counts it, where it does (Linux: proc(5)).</summary>
public static class ProcessMemory
{
    /// <summary>Begins to note the most memory anew.</summary>
    /// <returns>Whether the system can.</returns>
    public static bool ForgetPeak()
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

    /// <summary>Most memory held at once since then, or since the start, megabytes (10^6 bytes); null where the system does not say.</summary>
    public static double? PeakMb() => Mb("VmHWM");

    /// <summary>Memory held now, megabytes (10^6 bytes); null where the system does not say.</summary>
    public static double? NowMb() => Mb("VmRSS");

    private static double? Mb(string name)
    {
        try
        {
            string? line = File.ReadLines("/proc/self/status").FirstOrDefault(one => one.StartsWith(name, StringComparison.Ordinal));
            string? number = line?.Split(':', 2)[1].Trim().Split(' ')[0];
            return double.TryParse(number, CultureInfo.InvariantCulture, out double kibibytes) ? Math.Round(kibibytes * 1024 / 1e6) : null;
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }
}
