using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>Finds a sheet that fills only a part of the frame, with a table or soil around it.</summary>
internal static class SheetArea
{
    /// <summary>Width of a cell of the colour histogram, ln units.</summary>
    private const double Cell = 0.05;

    /// <summary>Least share of the frame that such a sheet fills.</summary>
    private const double LeastShare = 0.25;

    /// <summary>Least share of its own rotated box that a sheet fills, seen a little from the side; an ellipse fills 0.785.</summary>
    private const double LeastOfBox = 0.82;

    /// <summary>255 on the sheet and on all that lies on it, or null when there is no such sheet.</summary>
    /// <param name="planes">Small copy.</param>
    public static Mat? Find(ColourPlanes planes)
    {
        Size size = planes.Size;
        using Mat bright = Bright(planes);
        (double rg, double bg) = CommonColour(planes, bright);
        if (!IsNeutral(rg, bg))
        {
            return null;
        }

        using Mat sheet = Near(planes.RedToGreen, planes.BlueToGreen, rg, bg, 0.13);
        Cv2.BitwiseAnd(sheet, bright, sheet);
        using Mat square = Cv2.GetStructuringElement(MorphShapes.Rect, new Size(5, 5));
        Cv2.MorphologyEx(sheet, sheet, MorphTypes.Open, square);
        Cv2.FindContours(sheet, out Point[][] contours, out _, RetrievalModes.External, ContourApproximationModes.ApproxSimple);
        Point[]? largest = contours.MaxBy(c => Cv2.ContourArea(c));
        if (largest is null)
        {
            return null;
        }

        // A sheet is convex; a leaf across its edge dents it, and the hull mends that.
        Point[] hull = Cv2.ConvexHull(largest);
        double box = Cv2.MinAreaRect(hull).Size.Width * (double)Cv2.MinAreaRect(hull).Size.Height;
        Mat area = new(size, MatType.CV_8UC1, Scalar.All(0));
        Cv2.FillConvexPoly(area, hull, Scalar.All(255));
        Cv2.Erode(area, area, square);
        double filled = Cv2.CountNonZero(area);
        if (filled < LeastShare * size.Width * size.Height || Cv2.ContourArea(largest) < 0.75 * Cv2.ContourArea(hull)
            || Cv2.ContourArea(hull) < LeastOfBox * box)
        {
            area.Dispose();
            return null;
        }

        return area;
    }

    /// <summary>
    /// Whether a colour may be that of paper. Neutral paper is 0, 0; lamp light, shade and beige or bluish paper shift it this
    /// far (the greenest sheet seen had -0.1), soil and plants further; a silvery leaf has -0.2.
    /// </summary>
    public static bool IsNeutral(double redGreen, double blueGreen) => redGreen is > -0.15 and < 0.42 && blueGreen is > -0.7 and < 0.7;

    /// <summary>The most frequent colour of the marked pixels: a leaf that runs through them must not shift it.</summary>
    public static (double RedGreen, double BlueGreen) CommonColour(ColourPlanes planes, Mat marked)
    {
        const int Cells = 80;
        using Mat counts = new(Cells, Cells, MatType.CV_32FC1, Scalar.All(0));
        int rows = marked.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<byte> mark = marked.AsRow<byte>(y);
            ReadOnlySpan<float> rg = planes.RedToGreen.AsRow<float>(y);
            ReadOnlySpan<float> bg = planes.BlueToGreen.AsRow<float>(y);
            for (int x = 0; x < mark.Length; x++)
            {
                if (mark[x] != 0)
                {
                    int i = Math.Clamp((int)((rg[x] / Cell) + (Cells / 2.0)), 0, Cells - 1);
                    int j = Math.Clamp((int)((bg[x] / Cell) + (Cells / 2.0)), 0, Cells - 1);
                    counts.AsRow<float>(i)[j]++;
                }
            }
        }

        Cv2.GaussianBlur(counts, counts, new Size(5, 5), 1, 1, BorderTypes.Constant);
        Cv2.MinMaxLoc(counts, out _, out double _, out _, out Point top);
        return ((top.Y + 0.5 - (Cells / 2.0)) * Cell, (top.X + 0.5 - (Cells / 2.0)) * Cell);
    }

    /// <summary>255 where the colour lies within a distance of the given one.</summary>
    public static Mat Near(Mat redGreen, Mat blueGreen, double rg0, double bg0, double within)
    {
        Mat near = new(redGreen.Size(), MatType.CV_8UC1);
        float limit = (float)(within * within);
        int rows = near.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> rg = redGreen.AsRow<float>(y);
            ReadOnlySpan<float> bg = blueGreen.AsRow<float>(y);
            Span<byte> to = near.AsRow<byte>(y);
            for (int x = 0; x < to.Length; x++)
            {
                float dr = rg[x] - (float)rg0;
                float db = bg[x] - (float)bg0;
                to[x] = (dr * dr) + (db * db * 0.5f) < limit ? (byte)255 : (byte)0;
            }
        }

        return near;
    }

    // Paper is among the brighter things in the frame: a third of its brightest tenth and more.
    private static Mat Bright(ColourPlanes planes)
    {
        float[] levels = new float[planes.Size.Width * planes.Size.Height / 16];
        int n = 0;
        int height = planes.Size.Height;
        for (int y = 0; y < height; y += 4)
        {
            ReadOnlySpan<float> row = planes.Level.AsRow<float>(y);
            for (int x = 0; x < row.Length && n < levels.Length; x += 4)
            {
                levels[n++] = row[x];
            }
        }

        Array.Sort(levels, 0, n);
        Mat bright = new();
        Cv2.Compare(planes.Level, new Scalar(levels[(int)(0.9 * Math.Max(0, n - 1))] - 1.1), bright, CmpTypes.GT);
        return bright;
    }
}
