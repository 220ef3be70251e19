using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;

namespace LeafScan.Leaves;

/// <summary>
/// A first 90 % interval of damage from its plain causes: where the colour threshold lies and where the outline lies. Both
/// are taken as independent and added in squares. It is a statement about this photo, not about the plant.
/// </summary>
internal static class DamageInterval
{
    // No reading is surer than this; chosen together with the weights of the tissue's doubts.
    private const double Least = 0.004;

    /// <summary>Lower and upper end, 0..1.</summary>
    /// <param name="shares">Measured shares.</param>
    /// <param name="tissueLow">Damage with the strict threshold.</param>
    /// <param name="tissueHigh">Damage with the generous threshold.</param>
    /// <param name="areaPx">Leaf area in square pixels.</param>
    /// <param name="found">The outline.</param>
    public static (double Low, double High) Of(LeafShares shares, double tissueLow, double tissueHigh, double areaPx, FoundLeaf found)
    {
        double damage = shares.Damage;

        // A margin one pixel off (three when the outline is unsure) adds or loses a rim that is sound or is not.
        double rimPx = found.Flags.Contains(Flag.OutlineUnsure.Name) ? 3 : 1;
        double rimShare = areaPx > 0 ? Math.Min(0.5, rimPx * 4 * Math.Sqrt(areaPx) / areaPx) : 0.5;
        double outline = rimShare * Math.Max(damage, 0.05);
        double down = Math.Sqrt(Square(Math.Max(0, damage - tissueLow)) + Square(outline) + Square(Least));
        double up = Math.Sqrt(Square(Math.Max(0, tissueHigh - damage)) + Square(outline) + Square(Least));
        return (Math.Max(0, damage - down), Math.Min(1, damage + up));
    }

    private static double Square(double x) => x * x;
}
