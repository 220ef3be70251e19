namespace LeafScan.Training.Rendering;

/// <summary>
/// The seeds that are kept aside: scenes drawn from them are looked at only to report accuracy, never to tune the measuring
/// or to train a model.
/// </summary>
public static class KeptAside
{
    /// <summary>First seed kept aside.</summary>
    public const int First = 900_000;

    /// <summary>Last seed kept aside.</summary>
    public const int Last = 999_999;

    /// <summary>Whether a scene of this seed must not be used for tuning or training.</summary>
    public static bool Holds(int seed) => seed is >= First and <= Last;

    /// <summary>Whether any seed of a run is kept aside.</summary>
    /// <param name="first">First seed of the run.</param>
    /// <param name="count">How many seeds follow one another, 1 or more.</param>
    public static bool Touches(long first, long count) => first <= Last && first + count - 1 >= First;
}
