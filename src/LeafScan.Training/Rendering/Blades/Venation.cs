using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Blades;

/// <summary>
/// The veins of a blade: midrib, side veins that bend towards the tip, and two sizes of network between them.
/// Owns its pictures, all of the size of the sheet.
/// </summary>
internal sealed class Venation : IDisposable
{
    private Venation(Mat main, Mat network, Mat fine, Mat fromVein, IReadOnlyList<Point2d[]> sideVeins)
    {
        Main = main;
        Network = network;
        Fine = fine;
        FromVein = fromVein;
        SideVeins = sideVeins;
    }

    /// <summary>Float 0..1: midrib and side veins, soft-edged.</summary>
    public Mat Main { get; }

    /// <summary>Float 0..1: meshes of one to three millimetres.</summary>
    public Mat Network { get; }

    /// <summary>Float 0..1: meshes below one millimetre.</summary>
    public Mat Fine { get; }

    /// <summary>Float: distance in sheet pixels to the nearest vein of the two coarser orders.</summary>
    public Mat FromVein { get; }

    /// <summary>The side veins as lines from the midrib outwards, in sheet pixels.</summary>
    public IReadOnlyList<Point2d[]> SideVeins { get; }

    public static Venation Grow(BladeShape shape, Host host, Random random)
    {
        double mm = shape.PixelsPerMm;
        double scale = Math.Min(1.3, Math.Max(0.5, shape.LengthPx / mm / 55));
        List<Point2d[]> veins = SideLines(shape, host, random);
        using Mat lines = Pixels.NewMask(shape.SheetSize);
        foreach (Point2d[] vein in veins)
        {
            Taper(lines, vein, 0.42 * mm * scale, 0.12 * mm * scale);
        }

        Point2d[] midrib = [.. Enumerable.Range(0, 40).Select(i => new Point2d(shape.X(i / 39.0), shape.CentreY))];
        Taper(lines, midrib, 1.25 * mm * scale, 0.25 * mm * scale);
        using Cells coarse = Cells.Make(shape.SheetSize, Math.Max(6, 2.4 * mm * scale), random);
        using Cells fine = Cells.Make(shape.SheetSize, Math.Max(4, 0.85 * mm * scale), random);
        using Mat barrier = new();
        Cv2.BitwiseOr(lines, coarse.Edges, barrier);
        Cv2.BitwiseNot(barrier, barrier);
        Mat fromVein = new();
        Cv2.DistanceTransform(barrier, fromVein, DistanceTypes.L2, DistanceTransformMasks.Mask3);
        return new Venation(
            Soft(lines, 0.07 * mm, 1), Soft(coarse.Edges, 0.07 * mm, LineGain(0.07 * mm)), Soft(fine.Edges, 0.05 * mm, LineGain(0.05 * mm)), fromVein, veins);
    }

    /// <inheritdoc />
    public void Dispose()
    {
        Main.Dispose();
        Network.Dispose();
        Fine.Dispose();
        FromVein.Dispose();
    }

    private static List<Point2d[]> SideLines(BladeShape shape, Host host, Random random)
    {
        List<Point2d[]> veins = [];
        foreach (int side in (int[])[-1, 1])
        {
            double shift = random.Between(-0.3, 0.3);
            for (int i = 0; i < host.VeinPairs; i++)
            {
                // With lobes a vein runs into the middle of each lobe.
                double end = host.Lobes > 0
                    ? Math.Pow((i + 0.5) / host.Lobes, 1 / 0.9)
                    : Math.Min(0.97, ((i + 1.0 + shift) / (host.VeinPairs + 0.6)) + random.Between(-0.012, 0.012));
                double start = Math.Max(0.01, end - (0.08 + (0.19 * Math.Sqrt(end * (1 - end)))) - random.Between(0, 0.02));
                double across = side * shape.WidthAt(end, side) * 0.93;
                double bow = random.Between(1.2, 1.6);
                veins.Add([.. Enumerable.Range(0, 24).Select(k =>
                {
                    double s = k / 23.0;
                    return new Point2d(shape.X(start + ((end - start) * Math.Pow(s, bow))), shape.CentreY + (across * s));
                })]);
            }
        }

        return veins;
    }

    private static void Taper(Mat mask, Point2d[] line, double from, double to)
    {
        for (int i = 0; i + 1 < line.Length; i++)
        {
            double width = from + ((to - from) * i / (line.Length - 1));
            Cv2.Line(mask, Whole(line[i]), Whole(line[i + 1]), Scalar.All(255), Math.Max(1, (int)Math.Round(width)), LineTypes.AntiAlias, 4);
        }
    }

    private static Point Whole(Point2d place) => new((int)Math.Round(place.X * 16), (int)Math.Round(place.Y * 16));

    // A line of one and a half pixels loses its height when it is blurred wider than itself.
    private static double LineGain(double sigma) => Math.Max(1, 0.75 * sigma * Math.Sqrt(2 * Math.PI) / 1.5);

    private static Mat Soft(Mat mask, double sigma, double gain)
    {
        Mat soft = new();
        mask.ConvertTo(soft, MatType.CV_32FC1, gain / 255.0);
        if (sigma > 0.3)
        {
            Cv2.GaussianBlur(soft, soft, default, sigma);
        }

        return soft;
    }
}
