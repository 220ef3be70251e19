using OpenCvSharp;

namespace LeafScan.Leaves.Learned;

/// <summary>
/// What the colour way, which has learned from nothing, says of a twig or plant that a network has read. The networks learned
/// from drawings alone: where both part the reading says so, and its interval holds what both say.
/// </summary>
/// <param name="Overlap">Overlap of both cuts, intersection over union, 0..1.</param>
/// <param name="Network">Discoloured share by the network on its own cut, 0..1; null where it found nothing to judge.</param>
/// <param name="Colour">The same by the colour way on its own cut.</param>
/// <param name="ColourOnSame">The same by the colour way on the network's cut.</param>
/// <param name="LeastOverlap">Cuts that overlap by less part, 0..1.</param>
internal readonly record struct Witness(double Overlap, double? Network, double? Colour, double? ColourOnSame, double LeastOverlap)
{
    /// <summary>Least overlap of twigs: off a sheet the colour way itself often loses parts of them.</summary>
    public const double OfTwigs = 0.6;

    /// <summary>Least overlap of whole plants.</summary>
    public const double OfPlants = 0.85;

    // On 186 renders both cuts of a twig on a sheet overlap by .85 and more, elsewhere by .48 and more; on the same cut both shares
    // lie within .06 but for eight (docs/decisions/051).
    private const double LeastOverlapOnSheet = 0.8;
    private const double MostApart = 0.06;

    /// <summary>Overlap of two cuts, 255 inside, same size.</summary>
    public static double OverlapOf(Mat foliage, Mat byColour)
    {
        using Mat both = new();
        using Mat either = new();
        Cv2.BitwiseAnd(foliage, byColour, both);
        Cv2.BitwiseOr(foliage, byColour, either);
        return Cv2.CountNonZero(both) / (double)Math.Max(1, Cv2.CountNonZero(either));
    }

    /// <summary>
    /// A plain sheet shows the cut to anyone: where the network's is another one, the network is wrong. Where it sees nothing at all,
    /// what colour sees is better than a refusal.
    /// </summary>
    public bool CutByColour(bool onSheet) => Colour is not null && (Network is null || (onSheet && Overlap < LeastOverlapOnSheet));

    /// <summary>Green that is there can be seen: where both part on the same pixels and the sound colour is sure, colour decides.</summary>
    /// <param name="soundColourSure">The plant's own sound colour could be told.</param>
    public bool TissueByColour(bool soundColourSure) => soundColourSure && ApartOnSame > MostApart;

    /// <summary>Whether both cuts part.</summary>
    public bool CutsPart => Overlap < LeastOverlap;

    /// <summary>Whether both ways part so far that a person must look.</summary>
    public bool Part => CutsPart || ApartOnSame > MostApart || Colour is null;

    /// <summary>The interval, widened to what either way says where both part.</summary>
    public (double Low, double High) Widen((double Low, double High) interval)
    {
        if (!Part)
        {
            return interval;
        }

        double[] said = [.. new[] { Network, Colour, ColourOnSame }.OfType<double>()];
        return said.Length == 0 ? interval : (Math.Min(interval.Low, said.Min()), Math.Max(interval.High, said.Max()));
    }

    private double ApartOnSame => Network is { } network && ColourOnSame is { } colour ? Math.Abs(network - colour) : 0;
}
