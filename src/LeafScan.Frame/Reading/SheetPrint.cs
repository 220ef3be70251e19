using LeafScan.Frame.Sheets;
using OpenCvSharp;

namespace LeafScan.Frame.Reading;

/// <summary>
/// Paints the print of a scale sheet, and all that lies beside the sheet, over with the paper's own colour, so that what
/// looks for leaves sees plain paper. The picture that is measured stays as it was taken.
/// </summary>
internal static class SheetPrint
{
    /// <summary>Markers from which on the map holds for the whole sheet; a map from fewer would put the paint beside the print.</summary>
    public const int MarkersForAll = 3;

    private const double QuietMm = 3;

    /// <summary>Rim of the paper that goes too: its cut edge casts a line of shadow.</summary>
    private const double RimMm = 1.5;

    /// <summary>Difference between the channels, as a share of the largest, up to which a mark in a strip is print and not plant.</summary>
    private const double MostChroma = 0.22;

    /// <summary>A copy of the photo without the print; the caller disposes it.</summary>
    /// <param name="bgr">The photo, 8-bit B, G, R.</param>
    /// <param name="view">The sheet in it.</param>
    /// <param name="markers">Numbers of the markers that were seen; a covered one may have a leaf on it.</param>
    public static Mat PaintedOver(Mat bgr, SheetView view, IReadOnlyCollection<int> markers)
    {
        Mat copy = bgr.Clone();
        Scalar white = White(bgr, view);
        bool knowsAll = markers.Count >= MarkersForAll;
        if (knowsAll)
        {
            PaintBeside(copy, view, white);
        }

        foreach (SheetMarker marker in view.Sheet.Markers.Where(m => markers.Contains(m.Id)))
        {
            Cv2.FillConvexPoly(copy, Corners(view, Grown(marker.Area, 0.8)), Around(bgr, view, marker) ?? white);
        }

        foreach (SheetArea strip in knowsAll ? Strips(view.Sheet) : [])
        {
            PaintStrip(copy, view, strip, white);
        }

        return copy;
    }

    // The table, the ground, a hand at the rim: whatever is not on the sheet is no leaf on the sheet.
    private static void PaintBeside(Mat copy, SheetView view, Scalar white)
    {
        PaperSize paper = view.Sheet.Paper;
        using Mat beside = new(copy.Size(), MatType.CV_8UC1, Scalar.All(255));
        Cv2.FillConvexPoly(beside, Corners(view, new SheetArea(RimMm, RimMm, paper.WidthMm - (2 * RimMm), paper.HeightMm - (2 * RimMm))), Scalar.All(0));
        copy.SetTo(white, beside);
    }

    // Head and foot between the markers: ruler, words and grey steps.
    private static IEnumerable<SheetArea> Strips(ScaleSheet sheet)
    {
        double left = ScaleSheet.MarkerEdgeMm + ScaleSheet.MarkerSideMm + 1;
        double width = sheet.Paper.WidthMm - (2 * left);
        yield return new SheetArea(left, 5, width, sheet.Field.TopMm - 6);
        double foot = sheet.Field.TopMm + sheet.Field.HeightMm;
        yield return new SheetArea(left, foot, width, sheet.Paper.HeightMm - 5 - foot);
    }

    private static void PaintStrip(Mat copy, SheetView view, SheetArea strip, Scalar white)
    {
        Point[] corners = Corners(view, strip);
        Rect box = Rect.Intersect(Cv2.BoundingRect(corners), new Rect(0, 0, copy.Cols, copy.Rows));
        if (box.Width < 2 || box.Height < 2)
        {
            return;
        }

        using Mat part = copy.SubMat(box);
        using Mat inside = new(part.Size(), MatType.CV_8UC1, Scalar.All(0));
        Cv2.FillConvexPoly(inside, [.. corners.Select(c => c - box.TopLeft)], Scalar.All(255));
        using Mat neutral = NeutralColour.Mask(part, white, MostChroma);
        Cv2.BitwiseAnd(inside, neutral, inside);
        part.SetTo(white, inside);
    }

    // Median of the paper about the markers that were seen: about a covered one lies what covers it.
    private static Scalar White(Mat bgr, SheetView view)
    {
        Scalar[] seen = [.. Seen(view).Select(marker => Around(bgr, view, marker)).OfType<Scalar>()];
        return seen.Length == 0 ? Scalar.All(235) : MedianOf(seen);
    }

    /// <summary>The markers that were seen.</summary>
    public static IEnumerable<SheetMarker> Seen(SheetView view) => view.Sheet.Markers.Where(marker => view.MarkersSeen.Contains(marker.Id));

    // Median of eight small patches of quiet paper about a marker; null when it is out of the frame.
    public static Scalar? Around(Mat bgr, SheetView view, SheetMarker marker)
    {
        SheetArea ring = Grown(marker.Area, QuietMm);
        List<Scalar> patches = [];
        for (int i = 0; i < 8; i++)
        {
            (double u, double v) = i switch { 0 => (0, 0), 1 => (0.5, 0), 2 => (1, 0), 3 => (1, 0.5), 4 => (1, 1), 5 => (0.5, 1), 6 => (0, 1), _ => (0.0, 0.5) };
            Point2d at = view.ToPhoto(ring.LeftMm + (u * ring.WidthMm), ring.TopMm + (v * ring.HeightMm));
            Rect patch = Rect.Intersect(new Rect((int)at.X - 2, (int)at.Y - 2, 5, 5), new Rect(0, 0, bgr.Cols, bgr.Rows));
            if (patch.Width == 5 && patch.Height == 5)
            {
                using Mat part = bgr.SubMat(patch);
                patches.Add(Cv2.Mean(part));
            }
        }

        return patches.Count < 3 ? null : MedianOf([.. patches]);
    }

    private static Scalar MedianOf(Scalar[] colours)
    {
        double Middle(Func<Scalar, double> channel) => colours.Select(channel).Order().ElementAt(colours.Length / 2);
        return new Scalar(Middle(c => c.Val0), Middle(c => c.Val1), Middle(c => c.Val2));
    }

    private static SheetArea Grown(SheetArea a, double mm) => new(a.LeftMm - mm, a.TopMm - mm, a.WidthMm + (2 * mm), a.HeightMm + (2 * mm));

    private static Point[] Corners(SheetView view, SheetArea a)
    {
        Point2d[] at =
        [
            view.ToPhoto(a.LeftMm, a.TopMm), view.ToPhoto(a.LeftMm + a.WidthMm, a.TopMm),
            view.ToPhoto(a.LeftMm + a.WidthMm, a.TopMm + a.HeightMm), view.ToPhoto(a.LeftMm, a.TopMm + a.HeightMm),
        ];
        return [.. at.Select(p => new Point((int)Math.Round(Math.Clamp(p.X, -1e6, 1e6)), (int)Math.Round(Math.Clamp(p.Y, -1e6, 1e6))))];
    }
}
