using LeafScan.Frame;
using OpenCvSharp;

namespace LeafScan.Training.Bench.Repeat;

/// <summary>
/// Where the places of a photo go when a flat leaf is shot again from another distance and with the camera tilted: the
/// pinhole camera of any textbook. The leaf turns about an axis through the middle of the photo.
/// </summary>
/// <param name="Map">From pixels of the photo to pixels of the shot.</param>
/// <param name="Size">Size of the shot: what the photo shows, and as much more as it takes to keep the leaf in the frame.</param>
internal sealed record ShotGeometry(PlaneMap Map, Size Size)
{
    /// <summary>Focal length over the photo's longer side: a phone's main camera is like 26 mm on 36 mm film (common practice, no source), on a 4:3 picture of the same diagonal 0.75.</summary>
    public const double FocalToLongSide = 0.75;

    /// <summary>The geometry of a shot.</summary>
    /// <param name="photo">Size of the photo.</param>
    /// <param name="shot">What changes.</param>
    /// <param name="leaf">Where the leaves lie in the photo; they stay in the frame.</param>
    public static ShotGeometry Of(Size photo, ShotSpec shot, Rect leaf)
    {
        (double cx, double cy) = ((photo.Width - 1) / 2.0, (photo.Height - 1) / 2.0);
        double focal = FocalToLongSide * Math.Max(photo.Width, photo.Height);
        double tilt = shot.TiltDegrees * Math.PI / 180;
        double scale = 1 / shot.Distance;

        // Across the axis x becomes x cos t at depth focal / scale + x sin t; along the axis nothing turns.
        PlaneMap lean = new([scale * Math.Cos(tilt), 0, 0, 0, scale, 0, scale * Math.Sin(tilt) / focal, 0, 1]);
        PlaneMap about = PlaneMap.Turn(shot.TiltTowardsDegrees, 1)
            .After(lean)
            .After(PlaneMap.Turn(-shot.TiltTowardsDegrees, 1))
            .After(PlaneMap.Shift(-cx, -cy));

        // Inside these lines every pixel was seen by the photo; what lies beyond would have to be invented.
        Point2d[] c = Corners(about, 0, 0, photo.Width - 1, photo.Height - 1);
        double left = Math.Max(c[0].X, c[2].X);
        double right = Math.Min(c[1].X, c[3].X);
        double top = Math.Max(c[0].Y, c[1].Y);
        double bottom = Math.Min(c[2].Y, c[3].Y);
        if (leaf.Width > 0)
        {
            Point2d[] l = Corners(about, leaf.Left, leaf.Top, leaf.Right - 1, leaf.Bottom - 1);
            left = Math.Min(left, Math.Floor(l.Min(p => p.X)));
            right = Math.Max(right, Math.Ceiling(l.Max(p => p.X)));
            top = Math.Min(top, Math.Floor(l.Min(p => p.Y)));
            bottom = Math.Max(bottom, Math.Ceiling(l.Max(p => p.Y)));
        }

        Size size = new(Span(right - left), Span(bottom - top));
        return new ShotGeometry(PlaneMap.Shift(-left, -top).After(about), size);
    }

    private static Point2d[] Corners(PlaneMap map, double left, double top, double right, double bottom)
        => [map.Map(left, top), map.Map(right, top), map.Map(left, bottom), map.Map(right, bottom)];

    // Rounded first, or the last bit of a double would take a column away.
    private static int Span(double length) => (int)Math.Floor(Math.Round(length, 6)) + 1;
}
