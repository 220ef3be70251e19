using LeafScan.Leaves.Baseline;
using LeafScan.Photos.Pictures;
using OpenCvSharp;

namespace LeafScan.Leaves.FineTexture;

/// <summary>Plain statistics of float pictures under a mask.</summary>
internal static class Correlation
{
    /// <summary>Pearson's correlation, -1..1; 0 when one of them does not vary.</summary>
    public static double Of(Mat a, Mat b, Mat mask)
    {
        double n = 0, sa = 0, sb = 0, saa = 0, sbb = 0, sab = 0;
        int rows = a.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> p = a.AsRow<float>(y);
            ReadOnlySpan<float> q = b.AsRow<float>(y);
            ReadOnlySpan<byte> m = mask.AsRow<byte>(y);
            for (int x = 0; x < p.Length; x++)
            {
                if (m[x] != 0)
                {
                    (double u, double v) = (p[x], q[x]);
                    n++;
                    sa += u;
                    sb += v;
                    saa += u * u;
                    sbb += v * v;
                    sab += u * v;
                }
            }
        }

        double under = ((n * saa) - (sa * sa)) * ((n * sbb) - (sb * sb));
        return under > 0 ? ((n * sab) - (sa * sb)) / Math.Sqrt(under) : 0;
    }

    /// <summary>Standard deviation under the mask.</summary>
    public static double Spread(Mat values, Mat mask)
    {
        Cv2.MeanStdDev(values, out _, out Scalar spread, mask);
        return spread.Val0;
    }

    /// <summary>Median under the mask; 0 when the mask is empty.</summary>
    public static double Median(Mat values, Mat mask)
    {
        float[] kept = new float[Cv2.CountNonZero(mask)];
        int count = 0;
        int rows = values.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> v = values.AsRow<float>(y);
            ReadOnlySpan<byte> m = mask.AsRow<byte>(y);
            for (int x = 0; x < v.Length; x++)
            {
                if (m[x] != 0)
                {
                    kept[count++] = v[x];
                }
            }
        }

        return count == 0 ? 0 : Ranked.At(kept, count / 2);
    }
}
