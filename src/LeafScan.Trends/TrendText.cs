using System.Globalization;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Trends;

/// <summary>A direction in sentences, the same at every door.</summary>
internal static class TrendText
{
    public static string TooFew { get; } = string.Create(
        CultureInfo.InvariantCulture,
        $"A direction needs {DamageTrend.VisitsLeast} visits within half a year: with fewer, even visits that rise one after another can be chance.");

    public static string Of(DamageTrend trend)
    {
        string visits = string.Create(CultureInfo.InvariantCulture, $"Over {trend.VisitCount} visits from {VerdictText.Day(trend.First)} to {VerdictText.Day(trend.Last)}");
        string slope = $"{VerdictText.Points(trend.SlopeAWeek)} points a week{Range(trend)}";
        return trend.Direction switch
        {
            TrendDirection.Rising => $"{visits} damage rose, by about {slope}. {Chance(trend.Chance)} It says that damage came, not that it still comes.",
            TrendDirection.Falling => $"{visits} mean damage fell, by about {VerdictText.Points(-trend.SlopeAWeek)} points a week{Range(trend, isTurned: true)}. {Chance(trend.Chance)} "
                + "That does not prove that care works: damage does not heal, and a mean falls when damaged leaves drop or other leaves are photographed.",
            _ when trend.IsTooAlike => $"{visits} too many readings are alike for a direction to show.",
            _ => $"{visits} damage went no sure way: {slope}. {Chance(trend.Chance)}",
        };
    }

    private static string Range(DamageTrend trend, bool isTurned = false) => trend.SlopeInterval is not { } range
        ? string.Empty
        : isTurned ? $" (90 % range {VerdictText.Points(-range.High)} to {VerdictText.Points(-range.Low)})" : $" (90 % range {VerdictText.Points(range.Low)} to {VerdictText.Points(range.High)})";

    private static string Chance(double chance) => chance switch
    {
        < 0.0005 => "By chance alone fewer than 1 in 1,000 series would look so clear.",
        < 0.0095 => string.Create(CultureInfo.InvariantCulture, $"By chance alone about {chance * 1000:0} in 1,000 series would look so clear."),
        < 0.995 => string.Create(CultureInfo.InvariantCulture, $"By chance alone about {chance * 100:0} in 100 series would look so clear."),
        _ => "By chance alone every series would look as clear.",
    };
}
