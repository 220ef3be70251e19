using LeafScan.Leaves.Learned;

namespace LeafScan.Leaves.WholePlant;

/// <summary>90 % intervals of a plant's damage and thinning, calibrated on renders (docs/accuracy.md).</summary>
internal static class CrownIntervals
{
    /// <summary>Interval of the discoloured share, 0..1.</summary>
    public static (double Low, double High) Damage(double damage, (double Low, double High) bounds, Witness? witness)
    {
        if (witness is { } other)
        {
            return Learned(damage, bounds, other);
        }

        double down = Math.Max(0, damage - bounds.Low) + 0.025 + (0.08 * damage);
        double up = Math.Max(0, bounds.High - damage) + 0.025 + (0.08 * damage);
        return (Math.Max(0, damage - down), Math.Min(1, damage + up));
    }

    // Fitted on 42 renders of ordinary seeds (docs/decisions/051).
    private static (double Low, double High) Learned(double damage, (double Low, double High) bounds, Witness witness)
    {
        double down = (0.3 * Math.Max(0, damage - bounds.Low)) + 0.01 + (0.03 * damage);
        double up = (0.3 * Math.Max(0, bounds.High - damage)) + 0.01 + (0.03 * damage);
        return witness.Widen((Math.Max(0, damage - down), Math.Min(1, damage + up)));
    }

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
