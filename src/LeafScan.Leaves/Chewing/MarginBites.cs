using OpenCvSharp;

namespace LeafScan.Leaves.Chewing;

/// <summary>
/// Dents of the margin that are bites. Candidates are what a morphological closing adds to the leaf; a bite has a corner
/// at both ends, is deep for its mouth, and does not repeat along the margin as teeth and lobes do. Its missing piece is
/// closed by a Hermite curve that leaves and meets the margin in the directions it had before the dent.
/// </summary>
internal sealed class MarginBites
{
    private MarginBites(IReadOnlyList<Point[]> polygons, bool straightCut)
    {
        Polygons = polygons;
        StraightCut = straightCut;
    }

    /// <summary>Each bite as a closed polygon, pixels of the mask.</summary>
    public IReadOnlyList<Point[]> Polygons { get; }

    /// <summary>A long straight cut was seen.</summary>
    public bool StraightCut { get; }

    /// <summary>Bites of a mask without holes.</summary>
    public static MarginBites Find(Mat mask, ChewOptions options)
    {
        double area = Cv2.CountNonZero(mask);
        Cv2.FindContours(mask, out Point[][] contours, out _, RetrievalModes.External, ContourApproximationModes.ApproxNone);
        Point[]? margin = contours.MaxBy(c => c.Length);
        if (margin is null || margin.Length < 40)
        {
            return new MarginBites([], false);
        }

        MarginLine line = MarginLine.Of(margin);
        List<Dent> dents = Dents(mask, line, Math.Sqrt(area), options.SmallestShare * area);
        List<Dent> bites = dents
            .Where(d => d.DepthToMouth >= options.DepthToMouth && d.CornerDegrees >= options.CornerDegrees)
            .ToList();
        bites = WithoutTeeth(bites, options.TeethFrom);
        return new MarginBites(bites.Select(b => Rebuild(line, b)).ToList(), line.HasStraightCut(Math.Sqrt(area)));
    }

    private static List<Dent> Dents(Mat mask, MarginLine line, double leafSidePx, double smallestPx)
    {
        int reach = Math.Max(5, (int)(leafSidePx * 0.16));
        using Mat kernel = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size((2 * reach) + 1, (2 * reach) + 1));
        using Mat wide = new();
        Cv2.CopyMakeBorder(mask, wide, reach, reach, reach, reach, BorderTypes.Constant, Scalar.All(0));
        Cv2.MorphologyEx(wide, wide, MorphTypes.Close, kernel);
        using Mat closed = new(wide, new Rect(reach, reach, mask.Cols, mask.Rows));
        using Mat added = new();
        Cv2.Subtract(closed, mask, added);
        using Mat labels = new();
        using Mat stats = new();
        using Mat centres = new();
        int count = Cv2.ConnectedComponentsWithStats(added, labels, stats, centres, PixelConnectivity.Connectivity8);
        List<Dent> dents = [];
        for (int label = 1; label < count; label++)
        {
            int areaPx = stats.At<int>(label, (int)ConnectedComponentsTypes.Area);
            if (areaPx >= smallestPx * 0.5 && line.DentAt(labels, label) is { } dent)
            {
                dents.Add(dent);
            }
        }

        return dents;
    }

    // Teeth and lobes repeat in size; bites do not.
    private static List<Dent> WithoutTeeth(List<Dent> bites, int teethFrom)
    {
        if (bites.Count < teethFrom)
        {
            return bites;
        }

        double[] mouths = bites.Select(b => b.MouthPx).Order().ToArray();
        double usual = mouths[mouths.Length / 2];
        return bites.Where(b => b.MouthPx > usual * 2.5).ToList();
    }

    private static Point[] Rebuild(MarginLine line, Dent dent)
    {
        (Point2d from, Point2d fromDirection) = line.Before(dent.Start);
        (Point2d to, Point2d toDirection) = line.After(dent.End);
        double reach = Math.Sqrt(Square(to.X - from.X) + Square(to.Y - from.Y));
        List<Point> polygon = line.Between(dent.Start, dent.End);
        polygon.Reverse();
        List<Point> curve = [];
        for (int i = 0; i <= 16; i++)
        {
            double t = i / 16.0;
            double h00 = (2 * t * t * t) - (3 * t * t) + 1;
            double h10 = (t * t * t) - (2 * t * t) + t;
            double h01 = (-2 * t * t * t) + (3 * t * t);
            double h11 = (t * t * t) - (t * t);
            double x = (h00 * from.X) + (h10 * reach * fromDirection.X) + (h01 * to.X) + (h11 * reach * toDirection.X);
            double y = (h00 * from.Y) + (h10 * reach * fromDirection.Y) + (h01 * to.Y) + (h11 * reach * toDirection.Y);
            curve.Add(new Point((int)Math.Round(x), (int)Math.Round(y)));
        }

        curve.AddRange(polygon);
        return curve.ToArray();
    }

    private static double Square(double x) => x * x;
}
