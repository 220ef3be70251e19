using LeafScan.Trends.Statistics;

namespace LeafScan.Trends.Efficacy;

/// <summary>What an efficacy formula gives: a share, or the reason why it cannot say. It never stands for "100 %" when counts are missing.</summary>
/// <param name="Share">Share of mites the treatment took beyond what happened without it; at most 1, below 0 when treated plants did worse. Null for "cannot say".</param>
/// <param name="Because">Why nothing can be said; null when <paramref name="Share"/> is there.</param>
/// <param name="Interval">Interval of the share, where replicates allow one.</param>
public sealed record EfficacyResult(double? Share, string? Because, Interval? Interval = null)
{
    internal static EfficacyResult CannotSay(string because) => new(null, because);
}
