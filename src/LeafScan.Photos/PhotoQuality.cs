using LeafScan.Photos.Pictures;
using OpenCvSharp;

namespace LeafScan.Photos;

/// <summary>When a whole photo counts as blurred, dark or burnt out.</summary>
public sealed record PhotoQualityOptions
{
    /// <summary>Median level, 0..255, under which a photo is too dark; 28 by default.</summary>
    public double DarkMedian { get; init; } = 28;

    /// <summary>Share of burnt-out pixels (all channels at 253 or more) from which a photo is too bright; 0.35 by default.</summary>
    public double BurntShare { get; init; } = 0.35;

    /// <summary>
    /// Sharpest edges: the 99.9th percentile of the gradient after a small blur over that before it. 1 means that the
    /// blur changed nothing, since the photo was blurred already; above 0.86 by default it is blurred.
    /// </summary>
    public double BlurRatio { get; init; } = 0.86;
}

/// <summary>Sharpness and exposure of a whole photo, from a small copy.</summary>
public static class PhotoQuality
{
    private const int LongSidePx = 1024;

    /// <summary>Names of the flags that apply.</summary>
    /// <param name="bgr">8-bit B, G, R.</param>
    /// <param name="options">Limits.</param>
    public static IReadOnlyList<string> Flags(Mat bgr, PhotoQualityOptions options)
    {
        using Mat grey = new();
        double shrink = Math.Min(1.0, LongSidePx / (double)Math.Max(bgr.Cols, bgr.Rows));
        using Mat small = new();
        AreaShrink.Into(bgr, small, shrink);
        Cv2.CvtColor(small, grey, ColorConversionCodes.BGR2GRAY);
        List<string> flags = [];
        if (Median(grey) < options.DarkMedian)
        {
            flags.Add(Flag.TooDark.Name);
        }

        using Mat burnt = new();
        Cv2.InRange(small, Scalar.All(253), Scalar.All(255), burnt);
        if (Cv2.CountNonZero(burnt) > options.BurntShare * small.Total())
        {
            flags.Add(Flag.TooBright.Name);
        }

        if (BlurRatio(grey) > options.BlurRatio)
        {
            flags.Add(Flag.Blurred.Name);
        }

        return flags;
    }

    /// <summary>
    /// How little the sharpest edges lose when the picture is blurred once more (re-blur measure, after Crete et al. 2007):
    /// about 0.5 in a sharp photo, towards 1 in a blurred one.
    /// </summary>
    internal static double BlurRatio(Mat grey)
    {
        using Mat again = new();
        Cv2.GaussianBlur(grey, again, default, 1.5);
        double before = StrongEdges(grey);
        return before < 4 ? 1 : StrongEdges(again) / before;
    }

    private static double StrongEdges(Mat grey)
    {
        using Mat dx = new();
        using Mat dy = new();
        Cv2.Sobel(grey, dx, MatType.CV_32F, 1, 0, 3, 0.25);
        Cv2.Sobel(grey, dy, MatType.CV_32F, 0, 1, 3, 0.25);
        using Mat size = new();
        Cv2.Magnitude(dx, dy, size);
        using Mat bytes = new();
        size.ConvertTo(bytes, MatType.CV_8U);
        return Percentile(bytes, 0.999);
    }

    private static double Median(Mat grey) => Percentile(grey, 0.5);

    private static double Percentile(Mat bytes, double share)
    {
        using Mat histogram = new();
        Cv2.CalcHist([bytes], [0], null, histogram, 1, [256], [new Rangef(0, 256)]);
        double wanted = share * bytes.Total();
        double sum = 0;
        for (int i = 0; i < 256; i++)
        {
            sum += histogram.At<float>(i);
            if (sum >= wanted)
            {
                return i;
            }
        }

        return 255;
    }
}
