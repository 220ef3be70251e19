namespace LeafScan.Trends.Statistics;

/// <summary>An interval for an unknown value, with the level of trust at which it was made.</summary>
/// <param name="Low">Lower end.</param>
/// <param name="High">Upper end, at least <paramref name="Low"/>.</param>
/// <param name="Level">Share of such intervals that hold the true value, between 0 and 1; 0.9 for 90 %.</param>
public readonly record struct Interval(double Low, double High, double Level)
{
    /// <summary><see cref="High"/> minus <see cref="Low"/>.</summary>
    public double Width => High - Low;

    /// <summary>Whether a value lies inside, ends included.</summary>
    public bool Holds(double value) => value >= Low && value <= High;

    /// <summary>The smallest interval that holds both; the level stays.</summary>
    public Interval Cover(double low, double high) => new(Math.Min(Low, low), Math.Max(High, high), Level);

    internal static void CheckLevel(double level)
    {
        if (!(level > 0 && level < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(level), level, "A level lies between 0 and 1, such as 0.9.");
        }
    }
}
