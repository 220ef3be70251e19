using OpenCvSharp;

namespace LeafScan.Leaves.Chewing;

/// <summary>
/// Dents of the margin that are bites. Candidates lie under the outline that a disc rolled round the leaf draws, once with
/// a wide disc (long eaten stretches) and once with a smaller one (single bites). On a smooth margin a bite has a corner at
/// both ends and is deep for its mouth; on a toothed margin it is far more than the notches around it. Its missing piece
/// is closed by a Hermite curve that leaves and meets the margin in the directions it had before the dent.
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
        double side = Math.Sqrt(area);
        double smallest = options.SmallestShare * area * 0.5;
        List<Dent> close = DentFinder.Find(line, Envelope.Depths(mask, margin, 0.16 * side), smallest);
        List<Dent> wide = DentFinder.Find(line, Envelope.Depths(mask, margin, 0.5 * side), smallest);
        Teeth? teeth = Teeth.Of(close, options.TeethFrom);
        MirrorOpinion mirror = new(mask);
        List<Dent> bites = [];
        foreach (Dent dent in wide.Concat(close))
        {
            bool doubtful = teeth is null && !close.Contains(dent);
            if (IsBite(dent, teeth, options)
                && !bites.Any(b => b.Overlaps(dent, line.Length))
                && !(doubtful && (mirror.HasTwin(line, dent, wide) || line.IsStraightBeside(dent, 0.15 * side))))
            {
                bites.Add(dent);
            }
        }

        return new MarginBites(bites.Select(b => Rebuild(line, b, teeth)).ToList(), line.HasStraightCut(side));
    }

    private static bool IsBite(Dent dent, Teeth? teeth, ChewOptions options)
    {
        // Notches between teeth and gaps between leaflets are less full than what a mouth cuts out.
        if (dent.Fullness < 0.55)
        {
            return false;
        }

        if (teeth is null)
        {
            return dent.DepthToMouth >= options.DepthToMouth && dent.CornerDegrees >= options.CornerDegrees;
        }

        (double mouth, double depth, double area) = teeth.Near(dent);
        return dent.AreaPx > 2.5 * area && dent.MouthPx > 1.3 * mouth && dent.DepthPx > 1.2 * depth && dent.DepthToMouth > 0.06;
    }

    private static Point[] Rebuild(MarginLine line, Dent dent, Teeth? teeth)
    {
        // Over teeth a direction is taken across several of them.
        int over = teeth is null ? 2 * line.Step : (int)(3 * teeth.Near(dent).MouthPx);
        (Point2d from, Point2d fromDirection) = line.Before(dent.Start, over);
        (Point2d to, Point2d toDirection) = line.After(dent.End, over);
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
