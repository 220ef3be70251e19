using LeafScan.Trends.Thresholds;

namespace LeafScan.Trends.NextSteps;

/// <summary>Small pieces of the advice.</summary>
internal static class Words
{
    public static string Text(FormattableString text) => FormattableString.Invariant(text);

    public static string Of(Threshold threshold) => ThresholdWords.SourceOf(threshold);

    public static string Count(int count, string one, string many) => Text($"{count} {(count == 1 ? one : many)}");
}
