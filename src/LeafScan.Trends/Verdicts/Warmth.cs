namespace LeafScan.Trends.Verdicts;

/// <summary>How fast mites can grow at a temperature, and how that changed about the care.</summary>
public sealed record Warmth
{
    /// <summary>Mean temperature in °C in the three weeks before the care.</summary>
    public required double MeanBefore { get; init; }

    /// <summary>Mean temperature in °C since.</summary>
    public required double MeanSince { get; init; }

    /// <summary>Mean growth a day before.</summary>
    public required double GrowthBefore { get; init; }

    /// <summary>Mean growth a day since.</summary>
    public required double GrowthSince { get; init; }

    /// <summary>
    /// Intrinsic rate of increase of the twospotted mite a day: 0.08 at 15 °C and 0.321 at 30 °C (Bounfour and Tanigoshi 2001, Ann.
    /// Entomol. Soc. Am. 94:400-404), a straight line between, down to 0 at 10 °C (NC State 2014: idle below about 50 °F). Flat above 32 °C.
    /// The lines are our own.
    /// </summary>
    /// <param name="celsius">Mean temperature of the day.</param>
    public static double GrowthADay(double celsius)
    {
        double warm = Math.Min(celsius, 32);
        return warm switch
        {
            <= 10 => 0,
            < 15 => 0.08 * (warm - 10) / 5,
            _ => 0.08 + ((0.321 - 0.08) * (warm - 15) / 15),
        };
    }

    internal static Warmth? Of(IReadOnlyList<HistoryWeather> weather, CareWindow window, DateOnly last)
    {
        double[] before = [.. weather.Where(day => day.Day <= window.FirstCare && window.FirstCare.DayNumber - day.Day.DayNumber <= 21).Select(Mean)];
        double[] since = [.. weather.Where(day => day.Day > window.FirstCare && day.Day <= last).Select(Mean)];
        return before.Length < 3 || since.Length < 3
            ? null
            : new Warmth { MeanBefore = before.Average(), MeanSince = since.Average(), GrowthBefore = before.Average(GrowthADay), GrowthSince = since.Average(GrowthADay) };
    }

    private static double Mean(HistoryWeather day) => (day.LowCelsius + day.HighCelsius) / 2;
}
