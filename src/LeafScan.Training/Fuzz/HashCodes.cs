namespace LeafScan.Training.Fuzz;

/// <summary>A seed that is the same in every run and on every machine.</summary>
internal static class HashCodes
{
    /// <summary>Mixes run, way in and number by FNV-1a with its 32-bit constants (Fowler, Noll and Vo).</summary>
    public static int Of(int seed, string name, int number)
    {
        uint hash = 2166136261;
        foreach (char letter in FormattableString.Invariant($"{seed} {name} {number}"))
        {
            hash = (hash ^ letter) * 16777619;
        }

        return (int)(hash & int.MaxValue);
    }
}
