using LeafScan.Leaves.Reading;
using LeafScan.Trends;
using LeafScan.Trends.Statistics;

namespace LeafScan.Cli.Screen;

/// <summary>Figures of some leaves together, as documents of all record commands show them.</summary>
internal static class FigureDocument
{
    /// <summary>The figures; shares and damage 0..1, null where no leaf counts.</summary>
    public static object Of(LeafFigures figures) => new
    {
        leaves = figures.LeafCount,
        leavesLeftOut = figures.LeafCountLeftOut,
        photos = figures.PhotoCount,
        damage = Round(figures.Damage),
        damageLow = Round(figures.DamageInterval?.Low),
        damageHigh = Round(figures.DamageInterval?.High),
        shares = figures.Shares is { } shares ? Shares(shares) : null,
        affectedLeaves = figures.AffectedCount,
        affectedShare = Round(figures.AffectedShare),
        affectedLow = Round(figures.AffectedInterval?.Low),
        affectedHigh = Round(figures.AffectedInterval?.High),
    };

    /// <summary>Six digits are more than any of it can mean.</summary>
    public static double? Round(double? value) => value is { } number ? Math.Round(number, 6) : null;

    /// <summary>"2.0 to 5.1", or nothing.</summary>
    public static string Range(Interval? interval) =>
        interval is { } known ? $"{Words.Percent(known.Low)} to {Words.Percent(known.High)}" : string.Empty;

    private static object Shares(LeafShares shares)
    {
        LeafShares round = ReadingRounding.Round(shares);
        return new { round.Sound, round.Stippled, round.Yellowed, round.Browned, round.Chewed, round.Unassessed };
    }
}
