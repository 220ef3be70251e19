using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Records;
using LeafScan.Trends.Statistics;

namespace LeafScan.Trends;

/// <summary>
/// What some leaves of one plant say together. A leaf is the unit: every leaf counts alike, because the sample is of
/// leaves, and because square pixels of two photos are no common measure. The mean by area is given beside it where every
/// leaf has its size in mm².
/// </summary>
public sealed record LeafFigures
{
    /// <summary>Leaves that count.</summary>
    public required int LeafCount { get; init; }

    /// <summary>Leaves left out: hardly any of them could be judged, or their file is damaged.</summary>
    public required int LeafCountLeftOut { get; init; }

    /// <summary>Photos with a leaf that counts.</summary>
    public required int PhotoCount { get; init; }

    /// <summary>Plain mean of the leaves' shares; null when no leaf counts.</summary>
    public required LeafShares? Shares { get; init; }

    /// <summary>Mean of the shares by leaf area; null when a leaf has no size in mm² or no leaf counts.</summary>
    public required LeafShares? SharesByArea { get; init; }

    /// <summary>Plain mean of the leaves' damage, 0..1; null when no leaf counts.</summary>
    public required double? Damage { get; init; }

    /// <summary>
    /// Interval of the mean damage of the plant's leaves, by <see cref="MeanInterval"/>; of a single leaf its own interval, which tells
    /// nothing of the plant's other leaves. Null when no leaf counts.
    /// </summary>
    public required Interval? DamageInterval { get; init; }

    /// <summary>Mean of the leaves' own intervals: what the error of measuring alone leaves open. Null when no leaf counts.</summary>
    public required Interval? MeasuringInterval { get; init; }

    /// <summary>Leaves with at least <see cref="TrendOptions.AffectedFrom"/> damage.</summary>
    public required int AffectedCount { get; init; }

    /// <summary>Wilson interval of the share of affected leaves; null when no leaf counts.</summary>
    public required Interval? AffectedInterval { get; init; }

    /// <summary>Gaps and sides of whole-plant photos; null without any.</summary>
    public CrownFigures? Crown { get; init; }

    /// <summary>Specks per cm of needle of twigs; null without any.</summary>
    public NeedleFigures? Needles { get; init; }

    /// <summary>Affected leaves among those that count, 0..1; null when no leaf counts.</summary>
    public double? AffectedShare => LeafCount == 0 ? null : (double)AffectedCount / LeafCount;

    /// <summary>Puts leaves together.</summary>
    /// <param name="leaves">Leaves of one plant.</param>
    /// <param name="options">How.</param>
    /// <param name="random">Source of chance for the interval.</param>
    public static LeafFigures Of(IEnumerable<LeafOnRecord> leaves, TrendOptions options, Random random)
    {
        List<LeafOnRecord> all = [.. leaves];
        List<LeafOnRecord> good = [.. all.Where(leaf => Counts(leaf, options))];
        int affected = good.Count(leaf => leaf.Damage >= options.AffectedFrom);
        bool isSized = good.Count > 0 && good.All(leaf => leaf.AreaMm2 is > 0);
        return new LeafFigures
        {
            LeafCount = good.Count,
            LeafCountLeftOut = all.Count - good.Count,
            PhotoCount = good.Select(leaf => leaf.PhotoId).Distinct().Count(),
            Shares = good.Count == 0 ? null : MeanShares(good, _ => 1),
            SharesByArea = isSized ? MeanShares(good, leaf => leaf.AreaMm2!.Value) : null,
            Damage = good.Count == 0 ? null : good.Average(leaf => leaf.Damage),
            DamageInterval = MeanInterval.Of([.. good.Select(leaf => new MeasuredDamage(leaf.Damage, leaf.DamageLow, leaf.DamageHigh))], options, random),
            MeasuringInterval = good.Count == 0 ? null : new Interval(good.Average(leaf => leaf.DamageLow), good.Average(leaf => leaf.DamageHigh), options.Level),
            AffectedCount = affected,
            AffectedInterval = good.Count == 0 ? null : WilsonInterval.Of(affected, good.Count, options.Level),
            Crown = CrownFigures.Of(good, options.Level),
            Needles = NeedleFigures.Of(good),
        };
    }

    internal static bool Counts(LeafDamage leaf, TrendOptions options) => leaf.Unassessed <= options.UnassessedMost && !leaf.IsFileDamaged;

    internal static bool Counts(LeafOnRecord leaf, TrendOptions options)
        => leaf.Shares.Unassessed <= options.UnassessedMost && !leaf.Flags.Contains(Flag.DamagedFile.Name);

    private static LeafShares MeanShares(List<LeafOnRecord> leaves, Func<LeafOnRecord, double> weight)
    {
        double sum = leaves.Sum(weight);
        double Mean(Func<LeafShares, double> share) => leaves.Sum(leaf => weight(leaf) * share(leaf.Shares)) / sum;
        return new LeafShares(
            Mean(shares => shares.Sound), Mean(shares => shares.Stippled), Mean(shares => shares.Yellowed), Mean(shares => shares.Browned),
            Mean(shares => shares.Chewed), Mean(shares => shares.Unassessed));
    }
}
