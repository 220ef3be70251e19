namespace LeafScan.Trends.Weather;

/// <summary>Lowest and highest temperature of a day.</summary>
/// <param name="Day">Day.</param>
/// <param name="LowC">Lowest, °C.</param>
/// <param name="HighC">Highest, °C, at least <paramref name="LowC"/>.</param>
public readonly record struct DayTemperature(DateOnly Day, double LowC, double HighC)
{
    /// <summary>Mean of the two, °C.</summary>
    public double MeanC => (LowC + HighC) / 2;
}

/// <summary>
/// Degree days of one day. All temperatures in one unit, °C or °F; the result is in degree days of that unit (1 °C-day is
/// 1.8 °F-days).
/// </summary>
public static class DegreeDays
{
    /// <summary>
    /// Single sine (Baskerville and Emin 1969, Ecology 50:514-517), with a horizontal cut-off where there is an upper
    /// threshold: what lies above it counts no more.
    /// </summary>
    /// <param name="low">Lowest temperature.</param>
    /// <param name="high">Highest temperature, at least <paramref name="low"/>.</param>
    /// <param name="lower">Lower threshold: no development below.</param>
    /// <param name="upper">Upper threshold: no faster above; null for none.</param>
    public static double SingleSine(double low, double high, double lower, double? upper = null)
    {
        Check(low, high);
        if (upper is { } limit && !(limit > lower))
        {
            throw new ArgumentOutOfRangeException(nameof(upper), limit, "The upper threshold must lie above the lower one.");
        }

        return Above(low, high, lower) - (upper is { } cut ? Above(low, high, cut) : 0);
    }

    /// <summary>Mean of lowest and highest less the threshold, not below 0.</summary>
    /// <param name="low">Lowest temperature.</param>
    /// <param name="high">Highest temperature.</param>
    /// <param name="lower">Lower threshold.</param>
    public static double Average(double low, double high, double lower)
    {
        Check(low, high);
        return Math.Max(0, ((low + high) / 2) - lower);
    }

    /// <summary>The same with the lowest temperature lifted to the threshold first.</summary>
    /// <param name="low">Lowest temperature.</param>
    /// <param name="high">Highest temperature.</param>
    /// <param name="lower">Lower threshold.</param>
    public static double ModifiedAverage(double low, double high, double lower)
    {
        Check(low, high);
        return Math.Max(0, ((Math.Max(low, lower) + Math.Max(high, lower)) / 2) - lower);
    }

    private static double Above(double low, double high, double threshold)
    {
        double mean = (low + high) / 2;
        if (low >= threshold)
        {
            return mean - threshold;
        }

        if (high <= threshold)
        {
            return 0;
        }

        double swing = (high - low) / 2;
        double angle = Math.Asin((threshold - mean) / swing);
        return (((mean - threshold) * ((Math.PI / 2) - angle)) + (swing * Math.Cos(angle))) / Math.PI;
    }

    private static void Check(double low, double high)
    {
        if (!(double.IsFinite(low) && double.IsFinite(high) && low <= high))
        {
            throw new ArgumentException($"The lowest temperature of a day ({low}) must not lie above its highest ({high}).");
        }
    }
}
