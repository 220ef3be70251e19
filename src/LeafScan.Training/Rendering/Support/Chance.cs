namespace LeafScan.Training.Rendering.Support;

/// <summary>Draws from a given source of chance.</summary>
internal static class Chance
{
    /// <summary>Evenly between two values.</summary>
    public static double Between(this Random random, double low, double high) => low + ((high - low) * random.NextDouble());

    /// <summary>Normal value, mean 0 and spread 1 (Box and Muller 1958, Annals of Mathematical Statistics 29:610-611).</summary>
    public static double Normal(this Random random)
        => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    /// <summary>Value whose logarithm is normal; <paramref name="median"/> is the middle one.</summary>
    public static double LogNormal(this Random random, double median, double spread) => median * Math.Exp(spread * random.Normal());

    /// <summary>True with the given chance, 0..1.</summary>
    public static bool Hit(this Random random, double chance) => random.NextDouble() < chance;

    /// <summary>
    /// A source from a seed. The seed is mixed first (finaliser of SplitMix, Steele, Lea and Flood 2014, OOPSLA): System.Random
    /// gives like first draws for seeds that follow each other.
    /// </summary>
    public static Random FromSeed(int seed)
    {
        ulong mixed = (ulong)(uint)seed + 0x9E3779B97F4A7C15UL;
        mixed = (mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9UL;
        mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EBUL;
        return new Random((int)((mixed ^ (mixed >> 31)) & int.MaxValue));
    }

    /// <summary>A new source that depends only on the next draw of this one.</summary>
    public static Random Split(this Random random) => new(random.Next());

    /// <summary>One of the things.</summary>
    public static T Pick<T>(this Random random, IReadOnlyList<T> things) => things[random.Next(things.Count)];
}
