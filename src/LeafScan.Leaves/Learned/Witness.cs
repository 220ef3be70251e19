using OpenCvSharp;

namespace LeafScan.Leaves.Learned;

/// <summary>
/// What the colour way, which has learned from nothing, says of a twig or plant that a network has read. The networks learned
/// from drawings alone, so where both part the reading says so and its interval holds both.
/// </summary>
/// <param name="Overlap">Overlap of both cuts, intersection over union, 0..1.</param>
/// <param name="Damage">Discoloured share by the colour way, 0..1; null where it found nothing to judge.</param>
internal readonly record struct Witness(double Overlap, double? Damage)
{
    private const double LeastOverlap = 0.6;
    private const double MostApart = 0.12;

    /// <summary>Compares two cuts.</summary>
    /// <param name="foliage">The network's, 255 inside.</param>
    /// <param name="byColour">The colour way's, same size.</param>
    /// <param name="damage">The colour way's discoloured share.</param>
    public static Witness Of(Mat foliage, Mat byColour, double? damage)
    {
        using Mat both = new();
        using Mat either = new();
        Cv2.BitwiseAnd(foliage, byColour, both);
        Cv2.BitwiseOr(foliage, byColour, either);
        return new Witness(Cv2.CountNonZero(both) / (double)Math.Max(1, Cv2.CountNonZero(either)), damage);
    }

    /// <summary>Whether both ways part so far that a person must look.</summary>
    /// <param name="damage">Discoloured share by the network.</param>
    public bool Parts(double damage) => Overlap < LeastOverlap || Damage is not { } other || Math.Abs(other - damage) > MostApart;

    /// <summary>The interval, widened to what the colour way says where both part.</summary>
    /// <param name="damage">Discoloured share by the network.</param>
    /// <param name="interval">Its interval.</param>
    public (double Low, double High) Widen(double damage, (double Low, double High) interval)
        => Parts(damage) && Damage is { } other ? (Math.Min(interval.Low, other), Math.Max(interval.High, other)) : interval;
}
