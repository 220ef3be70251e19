using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.FineTexture;

/// <summary>Reads the fine texture of a leaf whose specks have a pixel or two each.</summary>
internal static class TextureReader
{
    // Pixels of the shrunken leaf: a mark of one to three pixels, against what lies within about four.
    private const double FinePx = 1;
    private const double CoarsePx = 4;
    private const double SpeckFinePx = 1.5;
    private const double SpeckCoarsePx = 5;

    // A dot bends down in every direction, a ridge across itself only.
    private const double DotOverRidge = 0.4;

    /// <summary>Reads a leaf; null when too little of it is left inside its margin.</summary>
    /// <param name="patch">The leaf at the size at which it is read.</param>
    public static TextureReading? Read(LeafPatch patch)
    {
        using TexturePlanes planes = new(patch.Bgr, patch.Mask);
        using Mat inside = Inside(patch.Mask, planes.Lightness);
        if (Cv2.CountNonZero(inside) < 400)
        {
            return null;
        }

        using Mat red = planes.Band(planes.RedToGreen, FinePx, CoarsePx);
        using Mat blue = planes.Band(planes.BlueToGreen, FinePx, CoarsePx);
        using Mat light = planes.Band(planes.Lightness, FinePx, CoarsePx);
        using Mat dots = Dots(planes.Mean(planes.RedToGreen, SpeckFinePx));
        Mat pale = Pale(red, blue, light);
        (double energy, double dotEnergy, double cover) = Energies(pale, dots, inside);
        using Mat chroma = planes.Band(planes.Chroma, SpeckFinePx, SpeckCoarsePx);
        using Mat yellow = planes.Band(planes.Yellowness, SpeckFinePx, SpeckCoarsePx);
        using Mat redder = planes.Band(planes.RedToGreen, SpeckFinePx, SpeckCoarsePx);
        using Mat lighter = planes.Band(planes.Lightness, SpeckFinePx, SpeckCoarsePx);
        TextureFeatures features = new()
        {
            PaleEnergy = energy,
            DotEnergy = dotEnergy,
            PaleCover = cover,
            YellowerIsFuller = Correlation.Of(chroma, yellow, inside),
            RedderIsLighter = Correlation.Of(redder, lighter, inside),
            Coarseness = Coarseness(planes, red, inside),
            GlintShare = Glints(light, chroma, inside),
            RedToGreen = Correlation.Median(planes.RedToGreen, inside),
        };
        return new TextureReading(features, pale);
    }

    private static double Coarseness(TexturePlanes planes, Mat fine, Mat inside)
    {
        using Mat coarse = planes.Band(planes.RedToGreen, 4, 16);
        return Math.Log((Correlation.Spread(coarse, inside) + 1e-4) / (Correlation.Spread(fine, inside) + 1e-4));
    }

    private static double Glints(Mat light, Mat chroma, Mat inside)
    {
        // Steps an eye notices at once, in units of CIE Lab.
        using Mat bright = new();
        using Mat pale = new();
        Cv2.Compare(light, Scalar.All(5), bright, CmpTypes.GT);
        Cv2.Compare(chroma, Scalar.All(-1), pale, CmpTypes.LT);
        Cv2.BitwiseAnd(bright, pale, bright);
        Cv2.BitwiseAnd(bright, inside, bright);
        return Cv2.CountNonZero(bright) / (double)Cv2.CountNonZero(inside);
    }

    // Away from the margin, where light wraps round and the sheet shines in, and out of deep shadow.
    private static Mat Inside(Mat mask, Mat lightness)
    {
        Mat inside = new();
        using Mat kernel = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(13, 13));
        Cv2.Erode(mask, inside, kernel, null, 1, BorderTypes.Constant, Scalar.All(0));
        double middle = Cv2.CountNonZero(inside) > 0 ? Correlation.Median(lightness, inside) : 0;
        using Mat lit = new();

        // 30 % of the middle luminance is about 0.67 of its cube root, and L* goes with the cube root (CIE 15).
        Cv2.Compare(lightness, Scalar.All((0.67 * (middle + 16)) - 16), lit, CmpTypes.GT);
        Cv2.BitwiseAnd(inside, lit, inside);
        return inside;
    }

    private static Mat Pale(Mat red, Mat blue, Mat light)
    {
        Mat pale = new(red.Size(), MatType.CV_32FC1);
        int rows = pale.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> r = red.AsRow<float>(y);
            ReadOnlySpan<float> b = blue.AsRow<float>(y);
            ReadOnlySpan<float> l = light.AsRow<float>(y);
            Span<float> to = pale.AsRow<float>(y);
            for (int x = 0; x < to.Length; x++)
            {
                to[x] = l[x] > 0 && b[x] < 0 ? MathF.Max(r[x], 0) : 0;
            }
        }

        return pale;
    }

    // 255 where the plane bends down in both principal directions; takes the plane over.
    private static Mat Dots(Mat plane)
    {
        using (plane)
        {
            using Mat xx = new();
            using Mat yy = new();
            using Mat xy = new();
            Cv2.Sobel(plane, xx, MatType.CV_32FC1, 2, 0);
            Cv2.Sobel(plane, yy, MatType.CV_32FC1, 0, 2);
            Cv2.Sobel(plane, xy, MatType.CV_32FC1, 1, 1);
            Mat dots = new(plane.Size(), MatType.CV_8UC1);
            int rows = dots.Rows;
            for (int y = 0; y < rows; y++)
            {
                ReadOnlySpan<float> a = xx.AsRow<float>(y);
                ReadOnlySpan<float> b = yy.AsRow<float>(y);
                ReadOnlySpan<float> c = xy.AsRow<float>(y);
                Span<byte> to = dots.AsRow<byte>(y);
                for (int x = 0; x < to.Length; x++)
                {
                    float mean = (a[x] + b[x]) / 2;
                    float half = (a[x] - b[x]) / 2;
                    float spread = MathF.Sqrt((half * half) + (c[x] * c[x]));
                    float least = MathF.Max(-(mean + spread), 0);
                    float most = MathF.Max(-(mean - spread), 0);
                    to[x] = least > DotOverRidge * most ? (byte)255 : (byte)0;
                }
            }

            return dots;
        }
    }

    private static (double Energy, double DotEnergy, double Cover) Energies(Mat pale, Mat dots, Mat inside)
    {
        double sum = 0, squares = 0, inDots = 0, count = 0;
        int rows = pale.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> p = pale.AsRow<float>(y);
            ReadOnlySpan<byte> d = dots.AsRow<byte>(y);
            ReadOnlySpan<byte> m = inside.AsRow<byte>(y);
            for (int x = 0; x < p.Length; x++)
            {
                if (m[x] != 0)
                {
                    count++;
                    sum += p[x];
                    squares += p[x] * p[x];
                    inDots += d[x] != 0 ? p[x] : 0;
                }
            }
        }

        return (sum / count, inDots / count, squares > 0 ? sum * sum / (count * squares) : 0);
    }
}
