using OpenCvSharp;

namespace LeafScan.Leaves.Kinds;

/// <summary>How strong, how fine and how ordered the edges of lightness are.</summary>
internal static class TextureFigures
{
    private const double StrongEdge = 6;

    /// <summary>Adds the figures.</summary>
    public static void Add(FigureList list, KindZones zones)
    {
        Mat level = zones.L.Clone();
        try
        {
            for (int octave = 0; octave < 4; octave++)
            {
                Level(list, zones, level, octave);
                Mat half = new();
                Cv2.Resize(level, half, default, 0.5, 0.5, InterpolationFlags.Area);
                level.Dispose();
                level = half;
            }
        }
        finally
        {
            level.Dispose();
        }

        Blocks(list, zones);
    }

    private static void Level(FigureList list, KindZones zones, Mat level, int octave)
    {
        using Mat dx = new();
        using Mat dy = new();
        Cv2.Sobel(level, dx, MatType.CV_32F, 1, 0, 3, 0.125);
        Cv2.Sobel(level, dy, MatType.CV_32F, 0, 1, 3, 0.125);
        using Mat size = new();
        Cv2.Magnitude(dx, dy, size);
        using Mat zone = new();
        foreach ((string name, Mat mask) in zones.All)
        {
            Cv2.Resize(mask, zone, level.Size(), 0, 0, InterpolationFlags.Nearest);
            list.Add($"{name}.edges{octave}", Math.Log(0.1 + Cv2.Mean(size, zone).Val0));
        }

        using Mat strong = new();
        Cv2.Compare(size, Scalar.All(StrongEdge), strong, CmpTypes.GT);
        list.Add($"strong{octave}", Cv2.CountNonZero(strong) / (double)strong.Total());
        list.Add($"ordered{octave}", Ordered(dx, dy));
    }

    // Structure tensor (Bigun and Granlund 1987): 1 where neighbouring edges run the same way, 0 where they run anyhow.
    private static double Ordered(Mat dx, Mat dy)
    {
        using Mat along = new();
        using Mat all = new();
        Tensor(dx, dy, along, all);
        double sum = Cv2.Sum(all).Val0;
        return sum > 1 ? Cv2.Sum(along).Val0 / sum : 0;
    }

    private static Mat ManyWays(Mat level)
    {
        using Mat dx = new();
        using Mat dy = new();
        Cv2.Sobel(level, dx, MatType.CV_32F, 1, 0, 3, 0.125);
        Cv2.Sobel(level, dy, MatType.CV_32F, 0, 1, 3, 0.125);
        using Mat along = new();
        using Mat all = new();
        Tensor(dx, dy, along, all);
        Mat many = new();
        Cv2.ScaleAdd(all, -0.45, along, along);
        Cv2.Compare(along, Scalar.All(0), many, CmpTypes.LT);
        return many;
    }

    private static void Tensor(Mat dx, Mat dy, Mat along, Mat all)
    {
        using Mat xx = Product(dx, dx);
        using Mat yy = Product(dy, dy);
        using Mat xy = Product(dx, dy);
        using Mat difference = new();
        Cv2.Subtract(xx, yy, difference);
        Cv2.Add(xy, xy, xy);
        Cv2.Magnitude(difference, xy, along);
        Cv2.Add(xx, yy, all);
    }

    private static Mat Product(Mat one, Mat other)
    {
        using Mat raw = new();
        Cv2.Multiply(one, other, raw);
        Mat smooth = new();
        Cv2.Blur(raw, smooth, new Size(7, 7));
        return smooth;
    }

    // Black and white squares and letters: much contrast within a few pixels, and no colour.
    private static void Blocks(FigureList list, KindZones zones)
    {
        using Mat mean = new();
        using Mat square = new();
        Cv2.Blur(zones.L, mean, new Size(9, 9));
        Cv2.Multiply(zones.L, zones.L, square);
        Cv2.Blur(square, square, new Size(9, 9));
        using Mat meanSquare = new();
        Cv2.Multiply(mean, mean, meanSquare);
        using Mat variance = new();
        Cv2.Subtract(square, meanSquare, variance);
        using Mat colourful = new();
        Cv2.Magnitude(zones.A, zones.B, colourful);
        Cv2.Blur(colourful, colourful, new Size(9, 9));
        using Mat neutral = new();
        Cv2.Compare(colourful, Scalar.All(14), neutral, CmpTypes.LT);
        using Mat busy = new();
        Cv2.Compare(variance, Scalar.All(15 * 15), busy, CmpTypes.GT);
        list.Add("busy", Cv2.CountNonZero(busy) / (double)busy.Total());
        Cv2.BitwiseAnd(busy, neutral, busy);
        list.Add("busy.neutral", Cv2.CountNonZero(busy) / (double)busy.Total());

        // The edge of a shadow on grey ground is busy and neutral too, but runs one way.
        using Mat manyWays = ManyWays(zones.L);
        Cv2.BitwiseAnd(busy, manyWays, busy);
        list.Add("busy.neutral.manyWays", Cv2.CountNonZero(busy) / (double)busy.Total());
    }
}
