using System.Text.Json.Serialization;
using LeafScan.Leaves.Reading;
using LeafScan.Trends;
using LeafScan.Trends.Statistics;

namespace LeafScan.Cli.Screen;

/// <summary>Figures of some leaves together, as documents of all record commands show them.</summary>
internal static class FigureDocument
{
    /// <summary>The figures; shares and damage 0..1, null where no leaf counts. What only twigs and whole plants have is left out elsewhere.</summary>
    public static object Of(LeafFigures figures) => new Figures(
        figures.LeafCount,
        figures.LeafCountLeftOut,
        figures.PhotoCount,
        Round(figures.Damage),
        Round(figures.DamageInterval?.Low),
        Round(figures.DamageInterval?.High),
        figures.Shares is { } shares ? Shares(shares) : null,
        figures.AffectedCount,
        Round(figures.AffectedShare),
        Round(figures.AffectedInterval?.Low),
        Round(figures.AffectedInterval?.High),
        FoliageDocument.Of(figures.Crown),
        FoliageDocument.Of(figures.Needles));

    /// <summary>Six digits are more than any of it can mean.</summary>
    public static double? Round(double? value) => value is { } number ? Math.Round(number, 6) : null;

    /// <summary>"2.0 to 5.1", or nothing.</summary>
    public static string Range(Interval? interval) =>
        interval is { } known ? $"{Words.Percent(known.Low)} to {Words.Percent(known.High)}" : string.Empty;

    private sealed record Figures(
        int Leaves, int LeavesLeftOut, int Photos, double? Damage, double? DamageLow, double? DamageHigh, object? Shares, int AffectedLeaves, double? AffectedShare,
        double? AffectedLow, double? AffectedHigh,
        [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] object? Crown,
        [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] object? Needles);

    private static object Shares(LeafShares shares)
    {
        LeafShares round = ReadingRounding.Round(shares);
        return new { round.Sound, round.Stippled, round.Yellowed, round.Browned, round.Chewed, round.Unassessed };
    }
}
