using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Greenness;

/// <summary>Fresh growth: sound foliage that is brighter and yellower than the rest. It counts as sound; its share explains a look.</summary>
internal static class FreshGrowth
{
    private const double BluerBy = 0.22;
    private const double BrighterBy = 0.2;

    /// <summary>Share of the foliage, 0..1; 0 where nearly all is alike, since fresh growth then cannot be told from a yellow cultivar.</summary>
    /// <param name="planes">Colour.</param>
    /// <param name="codes"><see cref="MaskCode"/>.</param>
    /// <param name="reachPx">Size of a needle or leaf, pixels: smaller things are shine.</param>
    public static double Share(ColourPlanes planes, Mat codes, double reachPx)
    {
        using Mat sound = new();
        Cv2.Compare(codes, new Scalar((int)MaskCode.Sound), sound, CmpTypes.EQ);
        using Mat inside = new();
        Cv2.Compare(codes, new Scalar(0), inside, CmpTypes.GT);
        int all = Cv2.CountNonZero(inside);
        if (all == 0)
        {
            return 0;
        }

        using Mat weight = new();
        sound.ConvertTo(weight, MatType.CV_32FC1, 1 / 255.0);
        using Mat blue = Calm(planes.BlueToGreen, weight, reachPx);
        using Mat level = Calm(planes.Level, weight, reachPx);
        double middleBlue = Spread.Ranks(blue, sound, -4, 1, 0.6)[0];
        double middleLevel = Spread.Ranks(level, sound, -6, 1, 0.4)[0];
        using Mat fresh = new();
        using Mat bright = new();
        Cv2.InRange(blue, new Scalar(-10), new Scalar(middleBlue - BluerBy), fresh);
        Cv2.InRange(level, new Scalar(middleLevel + BrighterBy), new Scalar(10), bright);
        Cv2.BitwiseAnd(fresh, bright, fresh);
        Cv2.BitwiseAnd(fresh, sound, fresh);
        return Cv2.CountNonZero(fresh) / (double)all;
    }

    private static Mat Calm(Mat plane, Mat weight, double reachPx)
    {
        Mat sum = new();
        Cv2.Multiply(plane, weight, sum);
        Cv2.GaussianBlur(sum, sum, default, reachPx);
        using Mat share = new();
        Cv2.GaussianBlur(weight, share, default, reachPx);
        Cv2.Add(share, new Scalar(1e-3), share);
        Cv2.Divide(sum, share, sum);
        return sum;
    }
}
