using LeafScan.Records;
using LeafScan.Trends.Statistics;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Trends;

/// <summary>Which way damage went over the visits.</summary>
public enum TrendDirection
{
    /// <summary>Chance alone could lay the visits so.</summary>
    NoneSure,

    /// <summary>Damage rose.</summary>
    Rising,

    /// <summary>Damage fell. That never proves that care works.</summary>
    Falling,
}

/// <summary>
/// Direction of a plant's damage over its visits: whether there is one by Mann-Kendall's test (exact up to ten visits), how steep by Theil and Sen's
/// slope. It exists only from as many visits on as the exact test needs to reach its level at all, five; three visits never make a trend. A day
/// is one value, the mean of its leaves; leaves noted as new growth are left out, because they thin out the mean. It says nothing of care:
/// damage does not heal, and a mean falls when damaged leaves drop.
/// </summary>
public sealed record DamageTrend
{
    /// <summary>Two-sided probability up to which a direction is named. Common practice, no source.</summary>
    public const double Risk = 0.05;

    /// <summary>Visits longer ago than this before the last one are another season. Our own choice.</summary>
    public const int DaysMost = 182;

    // Means of the same leaves added in another order differ in the last digits, and the test knows no "nearly equal".
    private const int Digits = 6;

    /// <summary>Fewest visits that can show a direction.</summary>
    public static int VisitsLeast { get; } = MannKendall.LeastCount(Risk);

    /// <summary>Visits, each a day with leaves that count.</summary>
    public required int VisitCount { get; init; }

    /// <summary>Day of the first of them.</summary>
    public required DateOnly First { get; init; }

    /// <summary>Day of the last.</summary>
    public required DateOnly Last { get; init; }

    /// <summary>Which way.</summary>
    public required TrendDirection Direction { get; init; }

    /// <summary>Change of mean damage a week, as a share of the judged leaf: 0.01 is one point.</summary>
    public required double SlopeAWeek { get; init; }

    /// <summary>Its 90 % interval; null when too many visits read the same.</summary>
    public required Interval? SlopeInterval { get; init; }

    /// <summary>Two-sided probability that visits without a trend lie at least so clearly in one direction, 0..1.</summary>
    public required double Chance { get; init; }

    /// <summary>Whether the probability is exact (up to ten visits).</summary>
    public required bool IsChanceExact { get; init; }

    /// <summary>Whether so many visits read the same that no order of them could show a direction.</summary>
    public required bool IsTooAlike { get; init; }

    /// <summary>What it means, in sentences.</summary>
    public string Words => KindSentences.Of(Kind, TrendText.Of(this));

    /// <summary>What the visits' readings are of: leaf, twig or plant.</summary>
    public string Kind { get; init; } = "leaf";

    /// <summary>What is said where there is none.</summary>
    public static string TooFew => TrendText.TooFew;

    /// <summary>The direction of a plant's damage.</summary>
    /// <param name="leaves">Leaves of one plant.</param>
    /// <param name="options">Which leaves count and the interval's level; null for the defaults.</param>
    /// <returns>Null with fewer than <see cref="VisitsLeast"/> visits in the last <see cref="DaysMost"/> days of the record.</returns>
    public static DamageTrend? Of(IEnumerable<LeafOnRecord> leaves, TrendOptions? options = null)
    {
        TrendOptions which = TrendOptions.OrUsual(options);
        LeafOnRecord[] all = [.. leaves];
        DamageTrend? trend = Of(all.Where(leaf => LeafFigures.Counts(leaf, which) && leaf.Age != LeafGrowth.New).Select(leaf => (leaf.WalkedOn, leaf.Damage)), which.Level);
        return trend is null ? null : trend with { Kind = all[0].Kind };
    }

    internal static DamageTrend? Of(IReadOnlyList<HistoryVisit> visits)
        => Of(visits.SelectMany(visit => visit.Leaves.Where(leaf => leaf.Age != LeafAge.NewGrowth).Select(leaf => (visit.Day, leaf.Damage))), TrendOptions.OrUsual(null).Level);

    private static DamageTrend? Of(IEnumerable<(DateOnly Day, double Damage)> leaves, double level)
    {
        (DateOnly Day, double Damage)[] days =
        [
            .. leaves.GroupBy(leaf => leaf.Day).OrderBy(day => day.Key).Select(day => (day.Key, Math.Round(day.Average(leaf => leaf.Damage), Digits))),
        ];
        days = [.. days.Where(day => days[^1].Day.DayNumber - day.Day.DayNumber <= DaysMost)];
        if (days.Length < VisitsLeast)
        {
            return null;
        }

        double[] damages = [.. days.Select(day => day.Damage)];
        MannKendall trend = MannKendall.Of(damages)!;
        TheilSen line = TheilSen.Of([.. days.Select(day => (day.Day.DayNumber - days[0].Day.DayNumber) / 7.0)], damages, level)!;
        return new DamageTrend
        {
            VisitCount = days.Length,
            First = days[0].Day,
            Last = days[^1].Day,
            Direction = trend.PTwoSided > Risk ? TrendDirection.NoneSure : trend.S > 0 ? TrendDirection.Rising : TrendDirection.Falling,
            SlopeAWeek = line.Slope,
            SlopeInterval = line.SlopeInterval,
            Chance = trend.PTwoSided,
            IsChanceExact = trend.IsExact,
            IsTooAlike = MannKendall.SmallestPTwoSided(damages) > Risk,
        };
    }
}
