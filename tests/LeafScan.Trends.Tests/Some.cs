using LeafScan.Leaves.Reading;
using LeafScan.Records;

namespace LeafScan.Trends.Tests;

/// <summary>Builds leaves as the record gives them, so that a test shows only what matters.</summary>
internal static class Some
{
    public static readonly DateOnly June = new(2026, 6, 3);
    public static readonly DateOnly July = new(2026, 7, 2);

    private static long _number;

    /// <summary>A leaf with all of its damage stippled and an interval of two points either way.</summary>
    public static LeafOnRecord Leaf(double damage, DateOnly? day = null, double error = 0.02) => new()
    {
        LeafId = ++_number,
        PlantId = 1,
        WalkId = (day ?? June).DayNumber,
        WalkedOn = day ?? June,
        PhotoId = _number,
        FileName = "a.jpg",
        Ordinal = 0,
        AreaPx = 10_000,
        AreaMm2 = null,
        Shares = new LeafShares(1 - damage, damage, 0, 0, 0, 0),
        Damage = damage,
        DamageLow = Math.Max(0, damage - error),
        DamageHigh = Math.Min(1, damage + error),
        SpeckCount = 10,
        SpeckDensityPerCm2 = null,
        SpeckDiameterMedianPx = 7,
        Flags = [],
    };

    public static IEnumerable<LeafOnRecord> Leaves(DateOnly day, params double[] damages) => damages.Select(damage => Leaf(damage, day));
}
