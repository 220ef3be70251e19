using LeafScan.Trends;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Cli.Screen;

/// <summary>The direction of a plant's damage as a document, the same in series and verdict.</summary>
internal static class TrendDocument
{
    /// <summary>Null with too few visits.</summary>
    public static object? Of(DamageTrend? trend) => trend is null ? null : new
    {
        visits = trend.VisitCount,
        first = Words.Day(trend.First),
        last = Words.Day(trend.Last),
        direction = VerdictNames.InDocuments(trend.Direction),
        gainAWeek = FigureDocument.Round(trend.SlopeAWeek),
        gainLow = FigureDocument.Round(trend.SlopeInterval?.Low),
        gainHigh = FigureDocument.Round(trend.SlopeInterval?.High),
        chance = FigureDocument.Round(trend.Chance),
        exact = trend.IsChanceExact,
        words = trend.Words,
    };
}
