using LeafScan.Leaves.Learned;

namespace LeafScan.Leaves.Needles;

/// <summary>The 90 % interval of a twig's damage, calibrated on renders (docs/accuracy.md); about this photo, not the plant.</summary>
internal static class TwigInterval
{
    /// <summary>Lower and upper end, 0..1.</summary>
    /// <param name="damage">Measured damage.</param>
    /// <param name="bounds">Damage with a stricter and a more generous threshold.</param>
    /// <param name="onSheet">The twig lay on a plain sheet.</param>
    /// <param name="witness">What the colour way says beside the network; null where it worked alone.</param>
    public static (double Low, double High) Of(double damage, (double Low, double High) bounds, bool onSheet, Witness? witness)
        => witness is not { } other ? ByColour(damage, bounds, onSheet)
            : other.Widen(other.CutByColour(onSheet) ? ByColour(damage, bounds, onSheet) : ByNetwork(damage, bounds));

    // Fitted on 42 renders of ordinary seeds (docs/decisions/051).
    private static (double Low, double High) ByNetwork(double damage, (double Low, double High) bounds)
    {
        double down = (0.7 * Math.Max(0, damage - bounds.Low)) + 0.012 + (0.03 * damage);
        double up = (0.7 * Math.Max(0, bounds.High - damage)) + 0.012 + (0.03 * damage);
        return (Math.Max(0, damage - down), Math.Min(1, damage + up));
    }

    // Bark and the blurred rims of dead bands count as damage more often than damage is missed, so there is more room below.
    private static (double Low, double High) ByColour(double damage, (double Low, double High) bounds, bool onSheet)
    {
        double least = onSheet ? 0.02 : 0.025;
        double down = Math.Max(0, damage - bounds.Low) + least + (0.14 * damage);
        double up = Math.Max(0, bounds.High - damage) + (0.6 * least) + (0.04 * damage);
        return (Math.Max(0, damage - down), Math.Min(1, damage + up));
    }
}
