using CsCheck;
using LeafScan.Trends.Weather;

namespace LeafScan.Trends.Tests.Weather;

public sealed class DegreeDayTests
{
    // First five: test file of a public biology library, two decimals. Sixth: that file expects 5, which contradicts its own
    // double-sine row; 21 is right. 40/60: analytic, 10/pi. The rest: our own computation, checked numerically.
    [Theory]
    [InlineData(7, 14, 12, 33.0, 0.47, 0.005)]
    [InlineData(7, 14, 12, 33.0, 0.4681, 5e-5)]
    [InlineData(7, 10, 12, 33.0, 0, 1e-12)]
    [InlineData(13, 14, 12, 33.0, 1.5, 1e-12)]
    [InlineData(13, 40, 12, 33.0, 12.9443, 5e-5)]
    [InlineData(7, 40, 12, 33.0, 10.9397, 5e-5)]
    [InlineData(35, 40, 12, 33.0, 21, 1e-12)]
    [InlineData(40, 60, 50, null, 3.1831, 5e-5)]
    [InlineData(45, 70, 50, null, 8.4693, 5e-5)]
    [InlineData(38, 64, 50, null, 4.6503, 5e-5)]
    [InlineData(30, 49, 50, null, 0, 1e-12)]
    [InlineData(52, 78, 50, null, 15, 1e-12)]
    [InlineData(50, 70, 50, null, 10, 1e-12)]
    public void Single_sine(double low, double high, double lower, double? upper, double expected, double tolerance)
        => Assert.Equal(expected, DegreeDays.SingleSine(low, high, lower, upper), tolerance);

    [Theory]
    [InlineData(40, 60, 0, 5)]
    [InlineData(45, 70, 7.5, 10)]
    [InlineData(38, 64, 1, 7)]
    public void The_two_averages(double low, double high, double average, double modified)
    {
        Assert.Equal(average, DegreeDays.Average(low, high, 50), 1e-12);
        Assert.Equal(modified, DegreeDays.ModifiedAverage(low, high, 50), 1e-12);
    }

    // The sine wave itself, summed in small steps.
    [Fact]
    public void The_formula_is_the_area_under_the_sine()
        => Gen.Select(Gen.Double[-5, 25], Gen.Double[0.1, 25], Gen.Double[5, 15], Gen.Double[16, 35]).Sample(
            (low, range, lower, upper) =>
            {
                double sum = 0;
                for (int step = 0; step < 20_000; step++)
                {
                    double now = low + (range / 2) + (range / 2 * Math.Sin(2 * Math.PI * (step + 0.5) / 20_000));
                    sum += Math.Clamp(now, lower, upper) - lower;
                }

                return Math.Abs((sum / 20_000) - DegreeDays.SingleSine(low, low + range, lower, upper)) < 1e-4;
            },
            iter: 60);

    // 1 °C-day is 1.8 °F-days; 50 °F is 10 °C.
    [Fact]
    public void Both_scales_agree()
        => Assert.Equal(DegreeDays.SingleSine(40, 60, 50), DegreeDays.SingleSine(40 / 1.8 - 32 / 1.8, 60 / 1.8 - 32 / 1.8, 10) * DegreeDaySum.FahrenheitPerCelsius, 1e-9);

    [Fact]
    public void A_sum_with_many_days_missing_cannot_say()
    {
        DateOnly first = new(2026, 3, 1);
        DayTemperature[] days = [.. Enumerable.Range(0, 20).Select(day => new DayTemperature(first.AddDays(day), 15, 25))];

        Assert.Equal(200, DegreeDaySum.Of(days, first, first.AddDays(19))!.SumC, 1e-9);
        Assert.Equal((360.0, 2), (Math.Round(DegreeDaySum.Of(days[..18], first, first.AddDays(19))!.SumF * 20 / 18, 6), DegreeDaySum.Of(days[..18], first, first.AddDays(19))!.DaysMissing));
        Assert.Null(DegreeDaySum.Of(days[..17], first, first.AddDays(19)));
        Assert.Throws<ArgumentException>(() => DegreeDays.SingleSine(20, 10, 12));
    }
}
