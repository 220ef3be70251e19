using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Greenness;

/// <summary>
/// Fresh growth: sound foliage that is yellower and brighter than the rest. The sound foliage is split in two by ln(B/G)
/// (Otsu 1979), whichever of both is more; the yellower part is fresh where it lies far enough off, is brighter, and has
/// lost no green. It counts as sound; its share explains a look.
/// </summary>
internal static class FreshGrowth
{
    private const double BrighterBy = 0.14;
    private const double GreenAlike = 0.15;
    private const double LeastPart = 0.02;
    private const int Cells = 200;

    /// <summary>Share of the foliage, 0..1; 0 where all is alike, since fresh growth then cannot be told from a yellow cultivar.</summary>
    /// <param name="planes">Colour.</param>
    /// <param name="codes"><see cref="MaskCode"/>.</param>
    /// <param name="reachPx">Size of a needle or leaf, pixels: smaller things are shine.</param>
    /// <param name="mostPart">Largest part of the sound foliage that may be fresh, 0..1: above it light is likelier.</param>
    /// <param name="yellowerBy">Least distance of both parts, ln units of B/G: more where light and shade scatter it more.</param>
    public static double Share(ColourPlanes planes, Mat codes, double reachPx, double yellowerBy, double mostPart)
    {
        using Mat sound = new();
        Cv2.Compare(codes, new Scalar((int)MaskCode.Sound), sound, CmpTypes.EQ);
        using Mat inside = new();
        Cv2.Compare(codes, new Scalar(0), inside, CmpTypes.GT);
        int all = Cv2.CountNonZero(inside);
        int judged = Cv2.CountNonZero(sound);
        if (judged < 500)
        {
            return 0;
        }

        using Mat weight = new();
        sound.ConvertTo(weight, MatType.CV_32FC1, 1 / 255.0);
        using Mat blue = MaskedMean.Of(planes.BlueToGreen, weight, reachPx);
        double[] ends = Spread.Ranks(blue, sound, -4, 1, 0.01, 0.97);
        using Mat yellower = new();
        Cv2.InRange(blue, new Scalar(-10), new Scalar(Split(Spread.Histogram(blue, sound, ends[0], ends[1], Cells), ends[0], ends[1])), yellower);
        Cv2.BitwiseAnd(yellower, sound, yellower);
        using Mat others = new();
        Cv2.Subtract(sound, yellower, others);
        double part = Cv2.CountNonZero(yellower) / (double)judged;
        if (part < LeastPart || part > mostPart)
        {
            return 0;
        }

        using Mat held = new();
        Cv2.Max(blue, new Scalar(ends[0]), held);
        Cv2.Min(held, new Scalar(ends[1]), held);
        using Mat level = MaskedMean.Of(planes.Level, weight, reachPx);
        using Mat red = MaskedMean.Of(planes.RedToGreen, weight, reachPx);
        bool isFresh = Off(held, others, yellower) >= yellowerBy && Off(level, yellower, others) >= BrighterBy && Math.Abs(Off(red, yellower, others)) < GreenAlike;
        return isFresh ? part * judged / all : 0;
    }

    private static double Off(Mat plane, Mat here, Mat there) => Cv2.Mean(plane, here).Val0 - Cv2.Mean(plane, there).Val0;

    // The value that parts the counts into two groups as unlike as can be.
    private static double Split(int[] counts, double low, double high)
    {
        double all = Math.Max(1, counts.Sum(c => (double)c));
        double sum = counts.Select((c, i) => (double)c * i).Sum();
        (double below, double sumBelow, double best, int at) = (0, 0, -1, 0);
        for (int i = 0; i < counts.Length - 1; i++)
        {
            below += counts[i];
            sumBelow += (double)counts[i] * i;
            if (below <= 0 || below >= all)
            {
                continue;
            }

            double unlike = Math.Pow((sum * below / all) - sumBelow, 2) / (below * (all - below));
            (best, at) = unlike > best ? (unlike, i) : (best, at);
        }

        return low + ((at + 1) * (high - low) / counts.Length);
    }
}
