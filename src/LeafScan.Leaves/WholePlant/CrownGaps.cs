using OpenCvSharp;

namespace LeafScan.Leaves.WholePlant;

/// <summary>Missing share of the foliage, 0..1; 0 without any outline.</summary>
/// <param name="foliage">Pixels of foliage.</param>
/// <param name="full">Pixels of the full outline.</param>
internal delegate double GapRule(double foliage, double full);

/// <summary>From what is seen open inside a plant's full outline to the foliage it lacks.</summary>
internal static class CrownGaps
{
    // What even a dense plant leaves open inside its smoothed outline: from undamaged renders.
    private const double Fringe = 0.012;

    // Loose tufts hide more than half of a gap, and the smoothed outline lies inside the one that was there: found on renders with ordinary seeds.
    private const double Unseen = 2.2;

    /// <summary>Where the full outline is what the network says stood there: what is open is missing.</summary>
    public static double Seen(double foliage, double full) => full <= 0 ? 0 : Math.Clamp(1 - (foliage / full), 0, 1);

    /// <summary>The same from foliage alone, 255 inside.</summary>
    public static double Guessed(Mat foliage)
    {
        using Mat full = Envelope.Full(foliage, CrownMeter.Smoothing, CrownMeter.WidestNotch);
        return Guessed(Cv2.CountNonZero(foliage), Cv2.CountNonZero(full));
    }

    /// <summary>Where it is the foliage's own outline, smoothed.</summary>
    public static double Guessed(double foliage, double full)
    {
        double open = full <= 0 ? 0 : Math.Clamp((1 - (foliage / full) - Fringe) / (1 - Fringe), 0, 1);
        return 1 - Math.Pow(1 - open, Unseen);
    }
}
