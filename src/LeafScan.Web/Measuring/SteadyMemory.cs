using System.Runtime.InteropServices;

namespace LeafScan.Web.Measuring;

/// <summary>
/// Keeps a server that measures for hours at the memory of one photo. The C library by itself learns to keep freed pictures for later and
/// spreads them over a pool a thread; after some dozen photos that was more than a gigabyte that nobody used.
/// </summary>
internal static partial class SteadyMemory
{
    // Numbers of mallopt(3) of the GNU C library.
    private const int MmapThreshold = -3;
    private const int ArenaMax = -8;

    // A block from this size on goes back to the system at once; naming a size also ends the learning.
    private const int ReturnedFromBytes = 128 * 1024;
    private const int Pools = 2;

    /// <summary>Sets it, where the C library knows of it; once, before the first photo.</summary>
    public static void Keep()
    {
        if (!OperatingSystem.IsLinux())
        {
            return;
        }

        try
        {
            _ = Set(MmapThreshold, ReturnedFromBytes);
            _ = Set(ArenaMax, Pools);
        }
        catch (Exception without) when (without is EntryPointNotFoundException or DllNotFoundException)
        {
            // Another C library: more memory, the same readings.
        }
    }

    /// <summary>
    /// After a photo: collects what nobody holds any more. Pictures lie outside the collector's heap, so it sees no reason to run by itself
    /// and what waits for it piles up.
    /// </summary>
    public static void Tidy()
    {
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Forced, blocking: true, compacting: true);
        GC.WaitForPendingFinalizers();
    }

    [LibraryImport("libc", EntryPoint = "mallopt")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.System32)]
    private static partial int Set(int what, int value);
}
