using LeafScan.Frame.Reading;
using LeafScan.Frame.Sheets;
using LeafScan.Photos.Colour;
using OpenCvSharp;

namespace LeafScan.Frame;

/// <summary>
/// The light that falls on a scale sheet, from the paper's own white about its markers: what colour would be seen there in
/// neutral even light. Channels are scaled one by one in linear light (von Kries' rule in the camera's own primaries), which
/// puts the paper right exactly and other colours nearly.
/// </summary>
public sealed class SheetLight
{
    /// <summary>CIE L* that office paper is taken to have (common practice, no source).</summary>
    public const double PaperLightness = 95;

    /// <summary>
    /// Markers from which on their paper is taken for white. One alone may be no marker at all; of two the paper about each is known, whatever
    /// the map does further away.
    /// </summary>
    public const int MarkersForWhite = 2;

    private readonly SheetView _view;

    private readonly Vec3d[] _surface;

    private SheetLight(SheetView view, Vec3d[] surface)
    {
        _view = view;
        _surface = surface;
    }

    /// <summary>The light, or null when fewer than three markers with the paper about them were seen.</summary>
    /// <param name="bgr">The photo, 8-bit B, G, R, sRGB.</param>
    /// <param name="view">The sheet in it.</param>
    public static SheetLight? Of(Mat bgr, SheetView view)
    {
        List<(double X, double Y, Vec3d White)> seen = [];
        foreach (SheetMarker marker in SheetPrint.Seen(view))
        {
            if (SheetPrint.Around(bgr, view, marker) is { } white)
            {
                seen.Add((marker.Area.LeftMm + (marker.Area.WidthMm / 2), marker.Area.TopMm + (marker.Area.HeightMm / 2), WhiteBalance.Linear(white)));
            }
        }

        return seen.Count < 3 ? null : new SheetLight(view, Surface(seen));
    }

    /// <summary>
    /// The photo with the paper made neutral: one gain for each channel in linear light, none of them darkening. Null when
    /// too little of the paper can be seen. The caller disposes it.
    /// </summary>
    /// <param name="bgr">The photo, 8-bit B, G, R, sRGB.</param>
    /// <param name="view">The sheet in it.</param>
    public static Mat? Balanced(Mat bgr, SheetView view)
    {
        Vec3d[] seen = [.. SheetPrint.Seen(view).Select(m => SheetPrint.Around(bgr, view, m)).OfType<Scalar>().Select(WhiteBalance.Linear)];
        if (seen.Length < MarkersForWhite)
        {
            return null;
        }

        return WhiteBalance.Apply(bgr, new Vec3d(seen.Average(w => w.Item0), seen.Average(w => w.Item1), seen.Average(w => w.Item2)));
    }

    /// <summary>What a colour of the photo would be in neutral light, for a place on the sheet.</summary>
    /// <param name="bgr">Mean colour as photographed, B, G, R, 0..255, sRGB.</param>
    /// <param name="xPx">Column.</param>
    /// <param name="yPx">Row.</param>
    public LabColour Corrected(Scalar bgr, double xPx, double yPx)
    {
        Point2d mm = _view.ToSheet(xPx, yPx);
        Vec3d seen = WhiteBalance.Linear(bgr);
        double paper = Math.Pow((PaperLightness + 16) / 116, 3);
        double Channel(Func<Vec3d, double> of)
        {
            double white = of(_surface[0]) + (of(_surface[1]) * mm.X) + (of(_surface[2]) * mm.Y) + (of(_surface[3]) * mm.X * mm.Y);
            return WhiteBalance.Encoded(of(seen) / Math.Max(white, 1e-3) * paper);
        }

        return LabColour.FromSrgb(WhiteBalance.Level(Channel(c => c.Item2)), WhiteBalance.Level(Channel(c => c.Item1)), WhiteBalance.Level(Channel(c => c.Item0)));
    }

    // A plane through three whites; with four also its twist. Coordinates are mm on the paper.
    private static Vec3d[] Surface(List<(double X, double Y, Vec3d White)> seen)
    {
        int terms = seen.Count == 4 ? 4 : 3;
        using Mat a = new(seen.Count, terms, MatType.CV_64FC1);
        using Mat b = new(seen.Count, 3, MatType.CV_64FC1);
        for (int i = 0; i < seen.Count; i++)
        {
            double[] row = [1, seen[i].X, seen[i].Y, seen[i].X * seen[i].Y];
            for (int term = 0; term < terms; term++)
            {
                a.Set(i, term, row[term]);
            }

            b.Set(i, 0, seen[i].White.Item0);
            b.Set(i, 1, seen[i].White.Item1);
            b.Set(i, 2, seen[i].White.Item2);
        }

        using Mat x = new();
        Cv2.Solve(a, b, x, DecompTypes.SVD);
        Vec3d Row(int term) => term < terms ? new Vec3d(x.At<double>(term, 0), x.At<double>(term, 1), x.At<double>(term, 2)) : default;
        return [Row(0), Row(1), Row(2), Row(3)];
    }
}
