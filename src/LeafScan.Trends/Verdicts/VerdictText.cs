using System.Globalization;
using LeafScan.Records;
using LeafScan.Trends.Statistics;

namespace LeafScan.Trends.Verdicts;

/// <summary>Small pieces of the verdict's sentences.</summary>
internal static class VerdictText
{
    public static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    public static string Points(double share) => Number(share * 100);

    /// <summary>One decimal, never "-0.0".</summary>
    public static string Number(double value) => (Math.Round(value, 1) + 0.0).ToString("0.0", CultureInfo.InvariantCulture);

    public static string Between(Interval points) => $"between {Points(points.Low)} and {Points(points.High)}";

    public static string Count(int count, string one, string many) => string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? one : many)}");

    /// <summary>"the rinsing"; "the care" for several kinds.</summary>
    public static string Of(IReadOnlyList<CareKind> kinds) => kinds.Count != 1 ? "the care" : kinds[0] switch
    {
        CareKind.Rinse => "the rinsing",
        CareKind.Soap => "the soap",
        CareKind.Oil => "the oil",
        CareKind.Predators => "the release of predators",
        CareKind.Miticide => "the miticide",
        CareKind.Pruning => "the pruning",
        _ => "the care",
    };
}
