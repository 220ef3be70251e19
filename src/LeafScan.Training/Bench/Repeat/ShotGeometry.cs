using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Bench.Repeat;

/// <summary>
/// Where the places of a photo go when a flat leaf is shot again from another distance and with the camera tilted: the
/// pinhole camera of any textbook. The leaf turns about an axis through the middle of the photo.
/// </summary>
/// <param name="Map">From pixels of the photo to pixels of the shot.</param>
/// <param name="Size">Size of the shot: all of the photo fits, so that a tilt never cuts the leaf off.</param>
internal sealed record ShotGeometry(PlaneMap Map, Size Size)
{
    /// <summary>Focal length over the photo's longer side: a phone's main camera is like 26 mm on 36 mm film (common practice, no source), on a 4:3 picture of the same diagonal 0.75.</summary>
    public const double FocalToLongSide = 0.75;

    public static ShotGeometry Of(Size photo, ShotSpec shot)
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

        Point2d[] corners = [about.Map(0, 0), about.Map(photo.Width - 1, 0), about.Map(0, photo.Height - 1), about.Map(photo.Width - 1, photo.Height - 1)];
        double left = corners.Min(c => c.X);
        double top = corners.Min(c => c.Y);
        Size size = new(Span(corners.Max(c => c.X) - left), Span(corners.Max(c => c.Y) - top));
        return new ShotGeometry(PlaneMap.Shift(-left, -top).After(about), size);
    }

    // Rounded first, or the last bit of a double would add a column.
    private static int Span(double length) => (int)Math.Ceiling(Math.Round(length, 6)) + 1;
}
