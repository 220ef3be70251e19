using System.Runtime.ExceptionServices;

namespace LeafScan.Leaves.Baseline;

/// <summary>
/// Shares the rows of a picture out to the processors. OpenCV itself works most filters with one thread, so that without this
/// one processor waits while a single photo is read.
/// </summary>
internal static class Bands
{
    // Shorter bands cost more in rims and in starting than they save.
    private const int LeastRows = 64;

    /// <summary>Processors one photo may use; 1 when several photos are measured side by side.</summary>
    public static int Threads { get; set; } = Environment.ProcessorCount;

    /// <summary>Runs work over all rows, in as many bands as there are processors for one photo.</summary>
    /// <param name="rows">Number of rows.</param>
    /// <param name="work">Receives the first row of a band and the one after its last; bands run side by side.</param>
    public static void Run(int rows, Action<int, int> work)
    {
        int bands = Math.Clamp(rows / LeastRows, 1, Math.Max(1, Threads));
        if (bands == 1)
        {
            work(0, rows);
            return;
        }

        Unwrapped(() => Parallel.For(0, bands, band => work(rows * band / bands, rows * (band + 1) / bands)));
    }

    /// <summary>Runs work for each number from 0 to just below count, side by side where there are processors for it.</summary>
    public static void Each(int count, Action<int> work) =>
        Unwrapped(() => Parallel.For(0, count, new ParallelOptions { MaxDegreeOfParallelism = Math.Max(1, Threads) }, work));

    /// <summary>Does two things at once where there are processors for it, else one after the other.</summary>
    public static void Both(Action first, Action second)
    {
        if (Threads > 1)
        {
            Unwrapped(() => Parallel.Invoke(first, second));
            return;
        }

        first();
        second();
    }

    // What goes wrong in a band is the caller's as if it had gone wrong in the caller's own thread.
    private static void Unwrapped(Action work)
    {
        try
        {
            work();
        }
        catch (AggregateException all)
        {
            ExceptionDispatchInfo.Throw(all.InnerExceptions[0]);
        }
    }
}
