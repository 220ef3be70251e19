using LeafScan.Leaves.Learned;

namespace LeafScan.Leaves.WholePlant;

/// <summary>90 % intervals of a plant's damage and thinning, calibrated on renders (docs/accuracy.md).</summary>
internal static class CrownIntervals
{
    /// <summary>Interval of the discoloured share, 0..1.</summary>
    /// <param name="damage">Measured share.</param>
    /// <param name="bounds">The same with a stricter and a more generous threshold.</param>
    /// <param name="witness">What the colour way says beside the network; null where it worked alone.</param>
    public static (double Low, double High) Damage(double damage, (double Low, double High) bounds, Witness? witness)
        => witness is not { } other ? ByColour(damage, bounds)
            : other.Widen(other.CutByColour(onSheet: false) ? ByColour(damage, bounds) : ByNetwork(damage, bounds));

    // Fitted on 42 renders of ordinary seeds (docs/decisions/051).
    private static (double Low, double High) ByNetwork(double damage, (double Low, double High) bounds) => Around(damage, bounds, 0.3, 0.01 + (0.03 * damage));

    private static (double Low, double High) ByColour(double damage, (double Low, double High) bounds) => Around(damage, bounds, 1, 0.025 + (0.08 * damage));

    private static (double Low, double High) Around(double damage, (double Low, double High) bounds, double weight, double room) => (
        Math.Max(0, damage - (weight * Math.Max(0, damage - bounds.Low)) - room),
        Math.Min(1, damage + (weight * Math.Max(0, bounds.High - damage)) + room));

    /// <summary>Interval of the thinning, 0..1.</summary>
    /// <param name="thinning">Measured.</param>
    /// <param name="seen">The full outline is the network's.</param>
    /// <param name="other">What the colour way says where its cut is another one; null elsewhere.</param>
    public static (double Low, double High) Thinning(double thinning, bool seen, double? other)
    {
        double off = seen ? 0.02 + (0.2 * thinning) : 0.04 + (0.35 * thinning);
        return (Math.Max(0, Math.Min(thinning - off, other ?? 1)), Math.Min(1, Math.Max(thinning + off, other ?? 0)));
    }
}
