namespace LeafScan.Leaves.Learned;

/// <summary>
/// Keeps the large arrays that networks are fed from and answer into. The shared pool of the runtime keeps one for each thread
/// and each processor, tens of megabytes each, so that a long block held a gigabyte more; here three are kept for each processor,
/// and six at least: a photo asks for four at most at the same time. Safe from several threads.
/// </summary>
internal static class PlanePool
{
    /// <summary>Arrays kept at most.</summary>
    public static readonly int Most = Math.Max(6, 3 * Environment.ProcessorCount);

    // Leaves differ in size: what is asked for is rounded up to a megabyte of floats, so that the next leaf fits too.
    private const int Step = 1 << 18;

    private static readonly List<float[]> Kept = [];

    /// <summary>An array of at least this length, with anything in it.</summary>
    /// <param name="length">Floats that are needed.</param>
    public static float[] Rent(int length)
    {
        lock (Kept)
        {
            float[]? fits = Kept.Where(a => a.Length >= length).MinBy(a => a.Length);
            if (fits is not null)
            {
                Kept.Remove(fits);
                return fits;
            }
        }

        return GC.AllocateUninitializedArray<float>((length + Step - 1) / Step * Step);
    }

    /// <summary>Gives an array back; where all places are taken the smallest goes.</summary>
    /// <param name="array">What <see cref="Rent"/> gave.</param>
    public static void Return(float[] array)
    {
        lock (Kept)
        {
            Kept.Add(array);
            if (Kept.Count > Most)
            {
                Kept.Remove(Kept.MinBy(a => a.Length)!);
            }
        }
    }
}
