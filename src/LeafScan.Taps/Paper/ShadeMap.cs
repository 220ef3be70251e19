using OpenCvSharp;

namespace LeafScan.Taps.Paper;

/// <summary>
/// How much darker each pixel is than the bare paper around it: shading, vignette and soft shadows are divided out. Kept
/// as 16-bit whole numbers, <see cref="One"/> for black.
/// </summary>
internal sealed class ShadeMap : IDisposable
{
    /// <summary>The number that stands for a shade of 1.</summary>
    public const double One = 10_000;

    /// <summary>Standard deviation in pixels of the smoothing that lifts a speck of a few pixels out of noise.</summary>
    public const double Smoothing = 1;

    private ShadeMap(Mat shade, Mat judged, double noise)
    {
        Shade = shade;
        Judged = judged;
        Noise = noise;
    }

    /// <summary>Smoothed shade, 16-bit signed, full size.</summary>
    public Mat Shade { get; }

    /// <summary>255 where specks can be judged, full size.</summary>
    public Mat Judged { get; }

    /// <summary>Standard deviation of the smoothed shade of bare paper, 0..1.</summary>
    public double Noise { get; }

    /// <summary>Builds the map.</summary>
    public static ShadeMap Of(Mat grey, SheetMask sheet)
    {
        using Mat ground = new();
        sheet.Ground.ConvertTo(ground, MatType.CV_16SC1, 64);
        Cv2.GaussianBlur(ground, ground, default, 1.5);
        using Mat large = new();
        Cv2.Resize(ground, large, grey.Size(), 0, 0, InterpolationFlags.Linear);
        using Mat fine = new();
        grey.ConvertTo(fine, MatType.CV_16SC1, 64);
        Cv2.Subtract(large, fine, fine);
        Cv2.Divide(fine, large, fine, One);
        Mat shade = new();
        Cv2.GaussianBlur(fine, shade, new Size(5, 5), Smoothing);
        Mat judged = new();
        Cv2.Resize(sheet.Judged, judged, grey.Size(), 0, 0, InterpolationFlags.Nearest);
        (double middle, double noise) = Spread(shade, judged);
        Cv2.Subtract(shade, new Scalar(middle), shade);
        return new ShadeMap(shade, judged, noise / One);
    }

    /// <summary>True when specks can be judged at a place.</summary>
    public bool Sees(Point2d at)
    {
        int x = (int)Math.Round(at.X);
        int y = (int)Math.Round(at.Y);
        return x >= 0 && y >= 0 && x < Judged.Cols && y < Judged.Rows && Judged.AsRow<byte>(y)[x] != 0;
    }

    /// <summary>Darkest shade in a square around a place, 0..1; 0 where nothing can be judged.</summary>
    public double DarkestNear(Point2d at, double reach)
    {
        int left = Math.Max(0, (int)Math.Floor(at.X - reach));
        int right = Math.Min(Shade.Cols, (int)Math.Ceiling(at.X + reach) + 1);
        int top = Math.Max(0, (int)Math.Floor(at.Y - reach));
        int bottom = Math.Min(Shade.Rows, (int)Math.Ceiling(at.Y + reach) + 1);
        int most = 0;
        for (int y = top; y < bottom && left < right; y++)
        {
            foreach (short value in Shade.AsRow<short>(y)[left..right])
            {
                most = Math.Max(most, value);
            }
        }

        return most / One;
    }

    /// <summary>Shade at a place between pixels, 0..1; null when it cannot be judged there.</summary>
    public double? At(Point2d at)
    {
        int x = (int)Math.Floor(at.X);
        int y = (int)Math.Floor(at.Y);
        if (x < 0 || y < 0 || x >= Shade.Cols - 1 || y >= Shade.Rows - 1 || Judged.AsRow<byte>(y)[x] == 0)
        {
            return null;
        }

        Span<short> above = Shade.AsRow<short>(y);
        Span<short> below = Shade.AsRow<short>(y + 1);
        double right = at.X - x;
        double down = at.Y - y;
        double top = (above[x] * (1 - right)) + (above[x + 1] * right);
        double bottom = (below[x] * (1 - right)) + (below[x + 1] * right);
        return ((top * (1 - down)) + (bottom * down)) / One;
    }

    /// <summary>Standard deviation of shade where it can be judged, by quartiles, 0..1.</summary>
    /// <param name="shade">Shade, or a difference of two, 16-bit.</param>
    /// <param name="judged">255 where it counts.</param>
    public static double NoiseOf(Mat shade, Mat judged) => Spread(shade, judged).Noise / One;

    /// <inheritdoc />
    public void Dispose()
    {
        Shade.Dispose();
        Judged.Dispose();
    }

    // Median and spread by quartiles: specks are few, so they hardly count.
    private static (double Middle, double Noise) Spread(Mat shade, Mat judged)
    {
        const int Reach = 2000;
        long[] counts = new long[(2 * Reach) + 1];
        long all = 0;
        int rows = shade.Rows;
        for (int y = 0; y < rows; y += 4)
        {
            Span<short> values = shade.AsRow<short>(y);
            Span<byte> mask = judged.AsRow<byte>(y);
            for (int x = 0; x < values.Length; x++)
            {
                if (mask[x] != 0)
                {
                    counts[Math.Clamp((int)values[x], -Reach, Reach) + Reach]++;
                    all++;
                }
            }
        }

        double middle = Quantile(0.5);
        return (middle, Math.Max(2, (Quantile(0.75) - Quantile(0.25)) / 1.349));

        double Quantile(double share)
        {
            long sum = 0;
            for (int i = 0; i < counts.Length; i++)
            {
                sum += counts[i];
                if (sum > 0 && sum >= share * all)
                {
                    return i - Reach;
                }
            }

            return 0;
        }
    }
}
