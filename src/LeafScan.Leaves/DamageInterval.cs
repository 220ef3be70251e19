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
    // What is chewed is half as likely to be a false outline as a patch at the margin is.
    private const double ChewedInDoubt = 0.5;

    // No reading is surer than this; chosen together with the weights of the tissue's doubts.
    private const double Least = 0.009;

    /// <summary>Lower and upper end, 0..1.</summary>
    /// <param name="shares">Measured shares.</param>
    /// <param name="tissueLow">Damage with the strict threshold.</param>
    /// <param name="tissueHigh">Damage with the generous threshold.</param>
    /// <param name="areaPx">Leaf area in square pixels.</param>
    /// <param name="found">The outline.</param>
    /// <param name="rimShare">Share of the leaf, 0..1, in yellowed and browned patches that reach its margin; counts only where the outline is in doubt.</param>
    public static (double Low, double High) Of(LeafShares shares, double tissueLow, double tissueHigh, double areaPx, FoundLeaf found, double rimShare)
    {
        double damage = shares.Damage;

        // A margin one pixel off (three when the outline is unsure) adds or loses a rim that is sound or is not.
        double rimPx = found.Flags.Contains(Flag.OutlineUnsure.Name) ? 3 : 1;
        double stripShare = areaPx > 0 ? Math.Min(0.5, rimPx * 4 * Math.Sqrt(areaPx) / areaPx) : 0.5;
        double outline = stripShare * Math.Max(damage, 0.05);

        // A finger or soil taken for leaf shows as a brown patch at the margin, or as an edge eaten away.
        double foreign = InDoubt(found) ? Math.Sqrt(Square(rimShare) + Square(ChewedInDoubt * shares.Chewed)) : 0;
        double down = Math.Sqrt(Square(Math.Max(0, damage - tissueLow)) + Square(outline) + Square(foreign) + Square(Least));
        double up = Math.Sqrt(Square(Math.Max(0, tissueHigh - damage)) + Square(outline) + Square(Least));
        return (Math.Max(0, damage - down), Math.Min(1, damage + up));
    }

    /// <summary>True where the outline may hold something that is no leaf: its edge is unsure, or it runs out of the photo.</summary>
    /// <param name="found">The outline.</param>
    public static bool InDoubt(FoundLeaf found) => found.Flags.Contains(Flag.OutlineUnsure.Name) || found.Flags.Contains(Flag.LeafCutOff.Name);

    private static double Square(double x) => x * x;
}
