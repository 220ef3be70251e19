using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Needles;

/// <summary>
/// Needles that stand free enough to be seen one by one: how wide they are and how much of their length is in view. The length is the area of
/// the foliage over a needle's mean width, so what lies in the clumps between free needles counts as well. A middle line would not do: in a
/// clump of crossing needles it follows the clump.
/// </summary>
internal readonly record struct SingleNeedles
{
    // Thinner than this a needle's width, and so its length, is off by more than a quarter.
    private const double LeastWidthPx = 4;
    private const int MostWidthPx = 60;

    // Widths about the commonest one that are those of single needles.
    private const double Narrowest = 0.5;
    private const double Widest = 1.6;

    // What an opening of this many widths takes away stands free.
    private const double OpenedBy = 1.8;

    // Free pieces of needles are 3.4 to 4.6 times as long as wide, mean by area; of awls of junipers up to 3.2, of sprays of scales up to 2.3 (renders).
    private const double LeastFree = 0.1;
    private const int LeastPieces = 25;
    private const double LeastStretch = 3.25;

    private SingleNeedles(double width, double length) => (WidthPx, LengthPx) = (width, length);

    /// <summary>Mean width of a needle, pixels: what it loses towards its tip, narrow gaps that read as foliage give back.</summary>
    public double WidthPx { get; }

    /// <summary>Length of all needles that is in view, pixels.</summary>
    public double LengthPx { get; }

    /// <summary>Reads them; null where needles are too fine, cover each other, or where there are scales and no needles.</summary>
    /// <param name="foliage">255 on the twig.</param>
    public static SingleNeedles? Of(Mat foliage)
    {
        if (MiddleWidth(foliage) is not { } width || width < LeastWidthPx)
        {
            return null;
        }

        double area = Cv2.CountNonZero(foliage);
        int side = (int)(OpenedBy * width) | 1;
        using Mat disc = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(side, side));
        using Mat free = new();
        Cv2.MorphologyEx(foliage, free, MorphTypes.TopHat, disc);
        if (Cv2.CountNonZero(free) < LeastFree * area)
        {
            return null;
        }

        Cv2.FindContours(free, out Point[][] pieces, out _, RetrievalModes.External, ContourApproximationModes.ApproxNone);
        (double all, double stretched, int counted) = (0, 0, 0);
        foreach (Point[] piece in pieces)
        {
            double size = Cv2.ContourArea(piece) + (0.5 * piece.Length) + 1;
            if (size > 1.5 * width * width)
            {
                Size2f box = Cv2.MinAreaRect(piece).Size;
                all += size;
                stretched += size * (Math.Max(box.Width, box.Height) + 1) / (Math.Min(box.Width, box.Height) + 1);
                counted++;
            }
        }

        return counted >= LeastPieces && stretched / all >= LeastStretch ? new SingleNeedles(width, area / width) : null;
    }

    // Twice the distance from the edge along middle lines, about its commonest value; null where no width is common.
    private static double? MiddleWidth(Mat foliage)
    {
        using Mat depth = new();
        using Mat highest = new();
        Cv2.DistanceTransform(foliage, depth, DistanceTypes.L2, DistanceTransformMasks.Mask5);
        Cv2.Dilate(depth, highest, null);
        List<float> widths = [];
        int rows = depth.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> here = depth.AsRow<float>(y);
            ReadOnlySpan<float> around = highest.AsRow<float>(y);
            for (int x = 0; x < here.Length; x++)
            {
                if (here[x] > 0.9f && here[x] >= around[x])
                {
                    widths.Add((2 * here[x]) - 1);
                }
            }
        }

        double[] counts = new double[MostWidthPx + 2];
        foreach (float width in widths.Where(width => width < MostWidthPx))
        {
            counts[(int)Math.Round(width)]++;
        }

        int common = Enumerable.Range(1, MostWidthPx).MaxBy(i => counts[i - 1] + (2 * counts[i]) + counts[i + 1]);
        float[] near = [.. widths.Where(width => width >= Narrowest * common && width <= Widest * common)];
        return near.Length == 0 ? null : near.Average();
    }
}
