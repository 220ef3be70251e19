using LeafScan.Frame.Sheets;
using OpenCvSharp;
using OpenCvSharp.Aruco;

namespace LeafScan.Frame.Reading;

/// <summary>
/// Finds the corner markers of a scale sheet on a small copy, draws their corners at full size and fits the map from the
/// paper to the photo. Markers: S. Garrido-Jurado et al., Pattern Recognition 47(6), 2014, as built into OpenCV.
/// </summary>
internal static class SheetFinder
{
    // Scatter of a refined corner in photo pixels, and what each lost marker costs: from rendered sheets, see docs/accuracy.md.
    private const double CornerPx = 0.5;

    private static readonly double[] ByMarkers = [0.03, 0.02, 0.006, 0.004];

    /// <summary>The sheet most of whose markers are seen; null without any.</summary>
    /// <param name="grey">The photo, 8-bit grey, full size.</param>
    /// <param name="small">The same made smaller.</param>
    /// <param name="scale">Small over full.</param>
    /// <param name="options">How to look.</param>
    public static SheetView? Find(Mat grey, Mat small, double scale, FrameOptions options)
    {
        using Dictionary dictionary = CvAruco.GetPredefinedDictionary(PredefinedDictionaryType.Dict4X4_50);
        using ArucoDetector detector = new(dictionary);
        detector.DetectMarkers(small, out Point2f[][] corners, out int[] ids, out _);
        List<(SheetMarker Marker, ScaleSheet Sheet, Point2f[] Corners)> seen = [];
        for (int i = 0; i < ids.Length; i++)
        {
            if (ScaleSheet.OfMarker(ids[i]) is { } sheet && ids.Count(id => id == ids[i]) == 1)
            {
                seen.Add((sheet.Markers.Single(m => m.Id == ids[i]), sheet, Refined(grey, corners[i], scale)));
            }
        }

        return seen.Count == 0 ? null : seen.GroupBy(s => s.Sheet).OrderByDescending(g => g.Count()).Select(g => View(g.Key, [.. g.Select(s => (s.Marker, s.Corners))], options)).First();
    }

    // On the full photo a corner is where two edges meet, within a small window about the place found on the copy.
    private static Point2f[] Refined(Mat grey, Point2f[] corners, double scale)
    {
        Point2f[] full = [.. corners.Select(c => new Point2f((float)(((c.X + 0.5) / scale) - 0.5), (float)(((c.Y + 0.5) / scale) - 0.5)))];
        double side = full.Zip([.. full.Skip(1), full[0]], (a, b) => Math.Sqrt(((a.X - b.X) * (a.X - b.X)) + ((a.Y - b.Y) * (a.Y - b.Y)))).Min();
        int window = Math.Clamp((int)Math.Round(Math.Min(side / 14, 1.5 / scale)), 2, 20);
        bool inside = full.All(c => c.X > window + 2 && c.Y > window + 2 && c.X < grey.Cols - window - 3 && c.Y < grey.Rows - window - 3);
        return inside
            ? Cv2.CornerSubPix(grey, full, new Size(window, window), new Size(-1, -1), new TermCriteria(CriteriaTypes.Eps | CriteriaTypes.Count, 40, 0.01))
            : full;
    }

    private static SheetView? View(ScaleSheet sheet, List<(SheetMarker Marker, Point2f[] Corners)> seen, FrameOptions options)
    {
        List<Point2d> paper = [.. seen.SelectMany(s => Corners(s.Marker.Area))];
        List<Point2d> photo = [.. seen.SelectMany(s => s.Corners).Select(c => new Point2d(c.X, c.Y))];
        using Mat map = Cv2.FindHomography(paper, photo, HomographyMethods.None);
        if (map.Empty())
        {
            return null;
        }

        PlaneMap toPhoto = PlaneMap.From(map);
        if (!toPhoto.Back().Values.All(double.IsFinite))
        {
            return null;
        }

        SheetView view = new(sheet, toPhoto, options.Printed) { MarkersSeen = [], ResidualMm = 0, ScaleUncertainty = 0 };
        double residual = Math.Sqrt(paper.Zip(photo, (mm, px) => Square(view.ToSheet(px.X, px.Y) - mm)).Average());
        double pxPerMm = view.PixelsPerMmAt(photo.Average(p => p.X), photo.Average(p => p.Y));
        double corner = CornerPx / (pxPerMm * ScaleSheet.MarkerSideMm);
        return new SheetView(sheet, toPhoto, options.Printed)
        {
            MarkersSeen = [.. seen.Select(s => s.Marker.Id)],
            ResidualMm = residual,
            ScaleUncertainty = Math.Sqrt((ByMarkers[seen.Count - 1] * ByMarkers[seen.Count - 1]) + (corner * corner / seen.Count) + (residual * residual / (100 * 100))),
        };
    }

    private static double Square(Point2d d) => (d.X * d.X) + (d.Y * d.Y);

    private static Point2d[] Corners(SheetArea a) =>
    [
        new(a.LeftMm, a.TopMm), new(a.LeftMm + a.WidthMm, a.TopMm), new(a.LeftMm + a.WidthMm, a.TopMm + a.HeightMm), new(a.LeftMm, a.TopMm + a.HeightMm),
    ];
}
