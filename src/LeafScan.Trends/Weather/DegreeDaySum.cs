namespace LeafScan.Trends.Weather;

/// <summary>Degree days summed over a span of days.</summary>
/// <param name="SumC">Sum in °C-days over the days with weather.</param>
/// <param name="From">First day.</param>
/// <param name="To">Last day.</param>
/// <param name="DaysMissing">Days of the span without weather; they add nothing, so with any the sum is a lower bound.</param>
public sealed record DegreeDaySum(double SumC, DateOnly From, DateOnly To, int DaysMissing)
{
    /// <summary>°F-days of one °C-day.</summary>
    public const double FahrenheitPerCelsius = 1.8;

    /// <summary>Base that most tables take: 50 °F.</summary>
    public const double UsualBaseC = 10;

    /// <summary>The sum in °F-days.</summary>
    public double SumF => SumC * FahrenheitPerCelsius;

    /// <summary>Sums a span by single sine.</summary>
    /// <param name="weather">Days in any order; the first of two entries of one day counts.</param>
    /// <param name="from">First day, often 1 March.</param>
    /// <param name="to">Last day, not before <paramref name="from"/>.</param>
    /// <param name="baseC">Lower threshold, °C.</param>
    /// <param name="upperC">Upper threshold, °C; null for none.</param>
    /// <returns>Null, "cannot say", when more than one day in ten has no weather.</returns>
    public static DegreeDaySum? Of(IEnumerable<DayTemperature> weather, DateOnly from, DateOnly to, double baseC = UsualBaseC, double? upperC = null)
    {
        int days = to.DayNumber - from.DayNumber + 1;
        ArgumentOutOfRangeException.ThrowIfLessThan(days, 1, nameof(to));
        DayTemperature[] inside = [.. weather.Where(day => day.Day >= from && day.Day <= to).DistinctBy(day => day.Day)];
        return days - inside.Length > days / 10.0
            ? null
            : new DegreeDaySum(inside.Sum(day => DegreeDays.SingleSine(day.LowC, day.HighC, baseC, upperC)), from, to, days - inside.Length);
    }
}
